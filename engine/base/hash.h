/* hash.h - SHA-256 (FIPS 180-4), to name the exact rule files a record was judged by (base). */
#ifndef HL_HASH_H
#define HL_HASH_H

#include <stddef.h>
#include <stdint.h>

typedef struct hl_hash {
    uint32_t state[8];
    uint64_t size;
    unsigned char block[64];
} hl_hash;

void hl__hash_start(hl_hash *hash);
void hl__hash_add(hl_hash *hash, const void *bytes, size_t size);
/* 64 lower-case hex digits and a NUL. */
void hl__hash_end(hl_hash *hash, char out[65]);

#endif
