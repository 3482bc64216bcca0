/* test_book_proof.c - books that open and that nobody could work by: each is refused, at the line that made
 * it so, and the book beside it that differs by a little is not.  Figures: arithmetic. */
#include "sound_book.h"

/* In line 5 of main.lua, over a drop of 1 to 3 mm read to 0.1 mm, a blow of 40 to 50 mm read to 0.1 mm, and a
 * screw that moves drop by 1 mm a turn, at least 1/8 turn. */
typedef struct proof {
    const char *entry, *says, *sound; /* `sound`: nearly the same, and right */
} proof;

static const proof proofs[] = {
    {"change { 'drop', target = range(1.12, 1.18) },",
     "main.lua:5: drop: nothing that is read to 0.1 mm lies from 1.12 to 1.18 mm at A0 (88 notes)",
     "change { 'drop', target = range(1.12, 1.2) },"},
    {"change { 'drop', resolution = 5 },",
     "main.lua:5: drop: nothing that is read to 5 mm lies from 1 to 3 mm at A0 (88 notes)",
     "change { 'drop', resolution = 1 },"},
    {"change { 'drop', target = zones { { 'A0-B2', range(1, 3) }, { 'C3-C8', range(2.01, 2.09) } } },",
     "main.lua:5: drop: nothing that is read to 0.1 mm lies from 2.01 to 2.09 mm at C3 (61 notes)",
     "change { 'drop', target = zones { { 'A0-B2', range(1, 3) }, { 'C3-C8', range(2, 3) } } },"},
    {"change { 'drop', even = 0.05 },",
     "main.lua:5: drop: even 0.05 mm is finer than what is read, 0.1 mm: any two readings that differ are "
     "uneven",
     "change { 'drop', even = 0.1 },"},
    {"change { 'blow', fix = { 'screw' } },",
     "main.lua:5: blow is to be corrected by screw, which does not move it",
     "change { 'blow', fix = { 'screw' } }, adjuster { 'screw', moves = { blow = 2 } },"},
    {"change { 'derived', fix = { 'shim' } }, adjuster { 'shim', title = 'shim', more = 'a', less = 'b' },",
     "main.lua:5: derived is to be corrected by shim, which does not move it",
     "change { 'derived', fix = { 'screw' } },"},
    {"adjuster { 'screw', moves = { drop = 20 } },",
     "main.lua:5: drop: the smallest move of screw, 1/8 turn, shifts it by 2.5 mm, and its target is 2 mm "
     "wide at A0 (88 "
     "notes)",
     "adjuster { 'screw', moves = { drop = 16 } },"},
    {"change { 'drop', target = range(0.1, 0.1), fix = { 'shim' } }, adjuster { 'shim', title = 'shim', unit "
     "= 'mm', more = 'a', "
     "less = 'b', sizes = { 0.5, 1 }, moves = { drop = 1 } },",
     "main.lua:5: drop: the smallest move of shim, 0.5 mm, shifts it by 0.5 mm, and its target is 0 mm wide "
     "at A0 (88 notes)",
     "change { 'drop', target = range(0, 0.4), fix = { 'shim' } }, adjuster { 'shim', title = 'shim', unit = "
     "'mm', more = 'a', "
     "less = 'b', sizes = { 0.5, 1 }, moves = { drop = 1 } },"},
    {"acknowledge { 'screw', 'blow', why = 'known' },",
     "main.lua:5: screw does not move blow, so there is nothing to acknowledge",
     "acknowledge { 'screw', 'derived', why = 'known' },"},
    {"diagnosis { 'd', title = 'D', when = 'low(drop) and high(drop)', causes = { { 'c', todo = 't' } } },",
     "main.lua:5: diagnosis d can never hold: \"low(drop) and high(drop)\"",
     "diagnosis { 'd', title = 'D', when = 'low(drop) or high(drop)', causes = { { 'c', todo = 't' } } },"},
    {"change { 'drop', target = at_most(3) }, diagnosis { 'd', title = 'D', when = 'low(drop)', causes = { { "
     "'c', todo = 't' } } },",
     "main.lua:5: diagnosis d can never hold: \"low(drop)\"",
     "change { 'drop', target = at_least(1) }, diagnosis { 'd', title = 'D', when = 'low(drop)', causes = { "
     "{ 'c', todo = 't' } } },"},
    {"diagnosis { 'd', title = 'D', when = 'missing(drop) and fails(drop)', causes = { { 'c', todo = 't' } } "
     "},",
     "main.lua:5: diagnosis d can never hold: \"missing(drop) and fails(drop)\"",
     "diagnosis { 'd', title = 'D', when = 'missing(drop) and fails(blow)', causes = { { 'c', todo = 't' } } "
     "},"},
    {"change { 'blow', model = 'drop * 10' },",
     "main.lua:5: with all else at its aim, blow comes to 20.0 mm at A0, outside its own target (88 notes)",
     "change { 'blow', model = 'drop * 22.5' },"},
    /* the step that gives way may do so as far as it may */
    {"change { 'blow', model = 'drop * 19' }, float { 'blow', within = 1 },",
     "main.lua:5: with all else at its aim, blow comes to 38.0 mm at A0, outside its own target (88 notes)",
     "change { 'blow', model = 'drop * 19' }, float { 'blow', within = 2 },"},
    {"change { 'blow', model = 'drop * 19' }, float { 'drop', within = 0.1 },",
     "main.lua:5: with all else at its aim, blow comes to 38.0 mm at A0, outside its own target (88 notes)",
     "change { 'blow', model = 'drop * 19' }, float { 'drop', within = 0.2 },"},
};

static bool is_said(const char *entries, const char *says)
{
    rule_folder folder;
    hl_book *book = NULL;
    hl_complaints all = {0};
    hl_err err = {0};
    bool found = false;
    write_sound(&folder, entries);
    if (open_book(&folder, "main", &book, &err) != HL_OK)
        fail_msg("%s: %s; %s", entries, err.what, err.todo);
    close_folder(&folder);
    assert_int_equal(hl_book_check(&all, book, &err), HL_OK);
    for (size_t i = 0; i < all.n && !found; i++) {
        char got[800];
        snprintf(got, sizeof got, "%s:%d: %s", all.items[i].file, all.items[i].line, all.items[i].what);
        found = strcmp(got, says) == 0;
        assert_true(all.items[i].todo[0] != '\0');
    }
    for (size_t i = 0; i < all.n && !found; i++)
        print_message("  (%s:%d: %s)\n", all.items[i].file, all.items[i].line, all.items[i].what);
    hl_complaints_free(&all);
    hl_book_free(book);
    return found;
}

static void what_nobody_could_work_by_is_refused(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof proofs / sizeof *proofs; i++) {
        if (!is_said(proofs[i].entry, proofs[i].says))
            print_error("%s\n  should say %s\n", proofs[i].entry, proofs[i].says), wrong_messages++;
        if (is_said(proofs[i].sound, proofs[i].says))
            print_error("%s\n  is right, and says %s\n", proofs[i].sound, proofs[i].says), wrong_messages++;
    }
    assert_int_equal(wrong_messages, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(what_nobody_could_work_by_is_refused)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
