/* hash.c - SHA-256 after FIPS 180-4 (layer: base). */
#include "hash.h"

#include <string.h>

/* First 32 bits of the fractional parts of the cube roots of the first 64 primes (4.2.2). */
static const uint32_t K[64] = {
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2,
};

static uint32_t rotate(uint32_t x, int by)
{
    return x >> by | x << (32 - by);
}

static void spread_block(uint32_t w[64], const unsigned char *block)
{
    for (int i = 0; i < 16; i++) {
        const unsigned char *b = block + 4 * i;
        w[i] = (uint32_t)b[0] << 24 | (uint32_t)b[1] << 16 | (uint32_t)b[2] << 8 | (uint32_t)b[3];
    }
    for (int i = 16; i < 64; i++) {
        uint32_t a = rotate(w[i - 15], 7) ^ rotate(w[i - 15], 18) ^ w[i - 15] >> 3;
        uint32_t b = rotate(w[i - 2], 17) ^ rotate(w[i - 2], 19) ^ w[i - 2] >> 10;
        w[i] = w[i - 16] + a + w[i - 7] + b;
    }
}

/* One round; instead of moving a ... h along, each round takes them one place further round. */
static inline void mix_round(uint32_t s[8], int turn, uint32_t add)
{
    uint32_t *h = &s[(7 - turn) & 7], *d = &s[(3 - turn) & 7];
    const uint32_t a = s[-turn & 7], b = s[(1 - turn) & 7], c = s[(2 - turn) & 7];
    const uint32_t e = s[(4 - turn) & 7], f = s[(5 - turn) & 7], g = s[(6 - turn) & 7];
    const uint32_t sum1 = rotate(e, 6) ^ rotate(e, 11) ^ rotate(e, 25);
    const uint32_t sum0 = rotate(a, 2) ^ rotate(a, 13) ^ rotate(a, 22);
    *h += sum1 + ((e & f) ^ (~e & g)) + add;
    *d += *h;
    *h += sum0 + ((a & b) ^ (a & c) ^ (b & c));
}

static void mix_block(uint32_t state[8], const unsigned char *block)
{
    uint32_t w[64];
    uint32_t s[8]; /* a ... h of the standard */
    spread_block(w, block);
    memcpy(s, state, sizeof s);
    for (int i = 0; i < 64; i += 8) {
        mix_round(s, 0, K[i] + w[i]);
        mix_round(s, 1, K[i + 1] + w[i + 1]);
        mix_round(s, 2, K[i + 2] + w[i + 2]);
        mix_round(s, 3, K[i + 3] + w[i + 3]);
        mix_round(s, 4, K[i + 4] + w[i + 4]);
        mix_round(s, 5, K[i + 5] + w[i + 5]);
        mix_round(s, 6, K[i + 6] + w[i + 6]);
        mix_round(s, 7, K[i + 7] + w[i + 7]);
    }
    for (int i = 0; i < 8; i++) {
        state[i] += s[i];
    }
}

void hl__hash_start(hl_hash *hash)
{
    static const uint32_t start[8] = {0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a,
                                      0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19};
    *hash = (hl_hash){.size = 0};
    memcpy(hash->state, start, sizeof start);
}

void hl__hash_add(hl_hash *hash, const void *bytes, size_t size)
{
    const unsigned char *from = bytes;
    while (size > 0) {
        size_t held = (size_t)(hash->size % 64);
        size_t part = 64 - held < size ? 64 - held : size;
        memcpy(hash->block + held, from, part);
        hash->size += part;
        from += part;
        size -= part;
        if (held + part == 64) {
            mix_block(hash->state, hash->block);
        }
    }
}

void hl__hash_end(hl_hash *hash, char out[65])
{
    static const char digits[] = "0123456789abcdef";
    static const unsigned char padding[64] = {0x80};
    uint64_t bits = hash->size * 8;
    size_t held = (size_t)(hash->size % 64);
    hl__hash_add(hash, padding, held < 56 ? 56 - held : 120 - held);
    unsigned char length[8];
    for (int i = 0; i < 8; i++) {
        length[i] = (unsigned char)(bits >> (56 - 8 * i) & 0xFFu);
    }
    hl__hash_add(hash, length, sizeof length);
    for (int i = 0; i < 64; i++) {
        out[i] = digits[hash->state[i / 8] >> (28 - 4 * (i % 8)) & 0xFu];
    }
    out[64] = '\0';
}
