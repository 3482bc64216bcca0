/* fuzz.h - what the fuzz targets share.
 *
 * Each target is one function that takes any bytes.  libFuzzer calls it with what it invents
 * (clang, HAMMERLINE_FUZZ=ON), replay.c with the files of the corpus (any compiler). */
#ifndef FUZZ_H
#define FUZZ_H

#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* A promise that does not hold ends the run, so that the fuzzer keeps the input. */
#define PROMISE(holds)                                                                                       \
    do {                                                                                                     \
        if (!(holds)) {                                                                                      \
            fprintf(stderr, "%s:%d: broken promise: %s\n", __FILE__, __LINE__, #holds);                      \
            abort();                                                                                         \
        }                                                                                                    \
    } while (0)

#endif
