/* test_arena.c - memory of the big objects: zeroed, aligned, bounded, all freed at once. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdlib.h>
#include <string.h>

#include "arena.h"

static void what_is_taken_is_zeroed_and_aligned(void **state)
{
    (void)state;
    hl_arena arena = {0};
    for (size_t size = 0; size < 300; size++) {
        unsigned char *bytes = hl__arena_take(&arena, size);
        assert_non_null(bytes);
        assert_int_equal((uintptr_t)bytes % _Alignof(max_align_t), 0);
        for (size_t i = 0; i < size; i++) {
            assert_int_equal(bytes[i], 0);
        }
        memset(bytes, 0xAA, size); /* the next one must not see it */
    }
    assert_int_equal(arena.taken, 299 * 300 / 2); /* arithmetic */
    hl__arena_free(&arena);
    assert_null(arena.blocks);
    assert_int_equal(arena.taken, 0);
}

static void a_large_piece_leaves_the_small_ones_whole(void **state)
{
    (void)state;
    hl_arena arena = {0};
    char *small = hl__arena_copy(&arena, "let-off");
    char *large = hl__arena_take(&arena, 1u << 20);
    char *after = hl__arena_copy(&arena, "drop");
    assert_non_null(large);
    memset(large, 'x', 1u << 20);
    assert_string_equal(small, "let-off");
    assert_string_equal(after, "drop");
    hl__arena_free(&arena);
}

static void a_piece_that_cannot_be_is_refused_and_the_arena_lives_on(void **state)
{
    (void)state;
    hl_arena arena = {0};
    assert_null(hl__arena_take(&arena, SIZE_MAX));
    assert_null(hl__arena_take(&arena, SIZE_MAX - 16));
    assert_null(hl__arena_array(&arena, SIZE_MAX / 2, 4)); /* n * size wraps round */
    assert_null(hl__arena_copy_n(&arena, "", SIZE_MAX));
    assert_int_equal(arena.taken, 0);
    assert_non_null(hl__arena_take(&arena, 88));
    hl__arena_free(&arena);
}

static void copies_end_in_nul(void **state)
{
    (void)state;
    hl_arena arena = {0};
    assert_string_equal(hl__arena_copy_n(&arena, "capstan screw", 7), "capstan");
    assert_string_equal(hl__arena_copy_n(&arena, "capstan", 0), "");
    assert_string_equal(hl__arena_copy(&arena, ""), "");
    hl__arena_free(&arena);
}

static void a_list_grows_one_item_at_a_time(void **state)
{
    (void)state;
    int *notes = NULL;
    size_t room = 0;
    for (size_t n = 0; n < 1000; n++) {
        assert_true(hl__grow((void **)&notes, n, &room, sizeof *notes));
        assert_true(room > n);
        notes[n] = (int)n + 1;
    }
    for (size_t n = 0; n < 1000; n++) {
        assert_int_equal(notes[n], n + 1);
    }
    int *before = notes;
    size_t full = SIZE_MAX / 2;
    assert_false(hl__grow((void **)&notes, full, &full, sizeof *notes)); /* would wrap round */
    assert_ptr_equal(notes, before);
    free(notes);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_taken_is_zeroed_and_aligned),
        cmocka_unit_test(a_large_piece_leaves_the_small_ones_whole),
        cmocka_unit_test(a_piece_that_cannot_be_is_refused_and_the_arena_lives_on),
        cmocka_unit_test(copies_end_in_nul),
        cmocka_unit_test(a_list_grows_one_item_at_a_time),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
