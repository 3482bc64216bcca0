/* test_hash.c - SHA-256, by which a record names the exact rule files. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

#include "hash.h"

typedef struct sample {
    const char *text;
    const char *hash;
} sample;

/* The one-block and two-block examples of NIST for FIPS 180-4, and the empty text: values from
 * memory, compared with coreutils' sha256sum. */
static const sample SAMPLES[] = {
    {"", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"},
    {"abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"},
    {"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
     "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"},
};

static void nist_examples(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof SAMPLES / sizeof SAMPLES[0]; i++) {
        hl_hash hash;
        char out[65];
        hl__hash_start(&hash);
        hl__hash_add(&hash, SAMPLES[i].text, strlen(SAMPLES[i].text));
        hl__hash_end(&hash, out);
        assert_string_equal(out, SAMPLES[i].hash);
    }
}

/* A million times 'a', in pieces of all sizes: FIPS 180-2 appendix B.3, from memory, compared with
 * coreutils' sha256sum. */
static void a_million_letters_in_uneven_pieces(void **state)
{
    (void)state;
    char letters[200];
    memset(letters, 'a', sizeof letters);
    hl_hash hash;
    char out[65];
    hl__hash_start(&hash);
    size_t left = 1000000;
    for (size_t piece = 0; left > 0; piece = (piece + 1) % sizeof letters) {
        size_t size = piece < left ? piece : left;
        hl__hash_add(&hash, letters, size);
        left -= size;
    }
    hl__hash_end(&hash, out);
    assert_string_equal(out, "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

/* Around the places where the length no longer fits into the last block; from sha256sum. */
static void lengths_around_a_block(void **state)
{
    (void)state;
    static const struct {
        size_t size;
        const char *hash;
    } edges[] = {
        {55, "9f4390f8d30c2dd92ec9f095b65e2b9ae9b0a925a5258e241c9f1e910f734318"},
        {56, "b35439a4ac6f0948b6d6f9e3c6af0f5f590ce20f1bde7090ef7970686ec6738a"},
        {63, "7d3e74a05d7db15bce4ad9ec0658ea98e3f06eeecf16b4c6fff2da457ddc2f34"},
        {64, "ffe054fe7ae0cb6dc65c3af9b61d5209f439851db43d0ba5997337df154668eb"},
        {65, "635361c48bb9eab14198e76ea8ab7f1a41685d6ad62aa9146d301d4f17eb0ae0"},
    };
    char letters[65];
    memset(letters, 'a', sizeof letters);
    for (size_t i = 0; i < sizeof edges / sizeof edges[0]; i++) {
        hl_hash hash;
        char out[65];
        hl__hash_start(&hash);
        hl__hash_add(&hash, letters, edges[i].size);
        hl__hash_end(&hash, out);
        assert_string_equal(out, edges[i].hash);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nist_examples),
        cmocka_unit_test(a_million_letters_in_uneven_pieces),
        cmocka_unit_test(lengths_around_a_block),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
