/* test_book_check.c - what `rules check` says of a shop's changes: whose line made targets contradict each
 * other, and which moves were turned round.
 *
 * All figures are invented; expected values are arithmetic on them.  The base book: rise 10, fall 2, and
 * left = rise - fall, which is to be 8; a turn of the screw gives 4 mm of rise. */
#include "opened_book.h"
#include "sound_book.h"

static const char rise[] =
    "return step { id = 'rise', title = 'Rise', stage = 'set', unit = 'mm', ask = 'a',\n  why = 'w', "
    "resolution = 0.1, target = about(10, 1), fix = { 'screw' },\n  unsourced = true }\n";
static const char fall[] = "return step { id = 'fall', title = 'Fall', stage = 'set', unit = 'mm', ask = "
                           "'a',\n  why = 'w', resolution = 0.1, target = about(2, 1), unsourced = true }\n";
static const char left[] =
    "return step { id = 'left', title = 'Left', stage = 'set', kind = 'derived',\n  unit = 'mm', ask = 'a', "
    "why = 'w', resolution = 0.1, formula = 'rise - fall',\n  target = about(8, 1), unsourced = true }\n";
static const char other[] =
    "return step { id = 'other', title = 'Other', stage = 'set', kind = 'derived',\n  unit = 'mm', ask = "
    "'a', why = 'w', resolution = 0.1, formula = '4 * rise',\n  target = about(8, 1), unsourced = true }\n";
static const char base[] =
    "return book { id = 'base', api = 1, title = 'Base', stage { 'set', title = 'Set' },\n  fact { 'pitch', "
    "title = 'pitch', unit = 'mm/turn', naturals = 4, sharps = 5 },\n  fact { 'stated', title = 'what the "
    "sheet must state', unit = 'mm/turn' },\n  use 'rise', use 'fall', use 'left',\n  adjuster { 'screw', "
    "title = 'screw', more = 'in', less = 'out', unit = 'turn', finest = 1/8,\n    moves = { rise = 4, fall "
    "= 'up' } },\n}\n";

/* Writes the base book and one over it; `middle`, when not NULL, stands between the two. */
static hl_book *open_shop(rule_folder *folder, const char *middle, const char *entries)
{
    char text[1200];
    open_folder(folder);
    write_rule(folder, "rise", rise);
    write_rule(folder, "fall", fall);
    write_rule(folder, "left", left);
    write_rule(folder, "other", other);
    write_rule(folder, "base", base);
    if (middle != NULL) {
        snprintf(text, sizeof text,
                 "return book { id = 'middle', api = 1, title = 'Middle', use 'base',\n%s }\n", middle);
        write_rule(folder, "middle", text);
    }
    snprintf(text, sizeof text, "return book { id = 'shop', api = 1, title = 'Shop', use '%s',\n%s }\n",
             middle != NULL ? "middle" : "base", entries);
    write_rule(folder, "shop", text);
    return open_or_fail(folder, "shop");
}

/* The complaints as lines. */
static void list_complaints(const hl_book *book, bool warnings, char *out, size_t room)
{
    hl_complaints complaints = {0};
    hl_err err;
    size_t used = 0;
    assert_int_equal(
        warnings ? hl_book_warn(&complaints, book, &err) : hl_book_check(&complaints, book, &err), HL_OK);
    out[0] = '\0';
    for (size_t i = 0; i < complaints.n; i++) {
        const hl_err *said = &complaints.items[i];
        used += (size_t)snprintf(out + used, room - used, "%s:%d: %s; %s\n", said->file, said->line,
                                 said->what, said->todo);
        assert_true(used < room);
    }
    hl_complaints_free(&complaints);
}

typedef struct shop {
    const char *middle, *entries, *expected;
} shop;

static void check_shops(const shop *shops, size_t n, bool warnings)
{
    for (size_t i = 0; i < n; i++) {
        char got[2000];
        rule_folder folder;
        hl_book *book = open_shop(&folder, shops[i].middle, shops[i].entries);
        list_complaints(book, warnings, got, sizeof got);
        if (strcmp(got, shops[i].expected) != 0)
            print_error("%s\n", shops[i].entries);
        assert_string_equal(got, shops[i].expected);
        hl_book_free(book);
        close_folder(&folder);
    }
}

#define COMES(value, changed)                                                                                \
    "with all else at its aim, left comes to " value " at A0, outside its own target (88 notes); targets "   \
    "contradict each other; changed: " changed "; give one of these another target: rise, fall, left\n"

static void a_contradiction_stands_at_the_line_that_made_it(void **state)
{
    (void)state;
    static const shop shops[] = {
        {NULL, "change { 'rise', target = about(10.5, 1) }", ""}, /* 8.5 lies in 7 to 9 */
        {NULL, "change { 'rise', target = about(12, 1) }",
         "shop.lua:2: " COMES("10.0 mm", "rise (shop.lua:2)")},
        {NULL, "change { 'left', target = about(20, 1) }",
         "shop.lua:2: " COMES("8.0 mm", "left (shop.lua:2)")},
        {NULL, "change { 'rise', why = 'y', title = 'Other' },\n change { 'fall', target = about(6, 1) }",
         "shop.lua:3: " COMES("4.0 mm", "fall (shop.lua:3)")},
        /* two: the later is where it stands, both are told */
        {NULL, "change { 'fall', target = about(6, 1) },\n change { 'rise', target = about(11, 1) }",
         "shop.lua:3: " COMES("5.0 mm", "rise (shop.lua:3), fall (shop.lua:2)")},
        {NULL, "change { 'rise', target = about(11, 1) },\n change { 'fall', target = about(6, 1) }",
         "shop.lua:3: " COMES("5.0 mm", "rise (shop.lua:2), fall (shop.lua:3)")},
        {NULL, "change { 'rise', target = about(30, 1) },\n change { 'rise', target = about(20, 1) }",
         "shop.lua:3: " COMES("18.0 mm", "rise (shop.lua:3)")},
        /* the shop's own line, though a longer file was used before it */
        {"\n\n\n change { 'fall', target = about(6, 1) }", "change { 'rise', target = about(11, 1) }",
         "shop.lua:2: " COMES("5.0 mm", "rise (shop.lua:2), fall (middle.lua:5)")},
        {"\n\n\n change { 'fall', target = about(6, 1) }", "",
         "middle.lua:5: " COMES("4.0 mm", "fall (middle.lua:5)")},
        {NULL, "change { 'left', formula = 'rise + fall' }",
         "shop.lua:2: with all else at its aim, left comes to 12.0 mm at A0, outside its own target (88 "
         "notes); targets contradict each other; changed: left (shop.lua:2); give one of these another "
         "target: rise, fall, left\n"},
        /* nobody changed a target: the step's own line */
        {NULL, "use 'other'",
         "other.lua:1: with all else at its aim, other comes to 40.0 mm at A0, outside its own target (88 "
         "notes); targets contradict each other; give one of these another target: rise, other\n"},
    };
    check_shops(shops, sizeof shops / sizeof *shops, false);
}

#define SHOP(line)   "shop.lua:" #line ": screw moves rise by "
#define SIGN         "; check the sign: the figure is for one unit of \"in\"\n"
#define UNIT         "; check the unit: the figure is for one unit of \"in\"\n"
#define MOVES(moves) "adjuster { 'screw', moves = { " moves " } }"

static void a_move_that_was_turned_round_is_warned_of(void **state)
{
    (void)state;
    static const shop shops[] = {
        {NULL, "", ""},
        {NULL, MOVES("rise = -4"),
         SHOP(2) "-4 mm a turn, the other way than in base.lua:6, where it is 4 mm a turn" SIGN},
        {NULL, MOVES("rise = '-pitch'"),
         SHOP(2) "-4 mm a turn, the other way than in base.lua:6, where it is 4 mm a turn" SIGN},
        {NULL, MOVES("fall = 'down'"),
         "shop.lua:2: screw moves fall down, the other way than in base.lua:6, where it is up" SIGN},
        {NULL, MOVES("fall = -1"),
         "shop.lua:2: screw moves fall by -1 mm a turn, the other way than in base.lua:6, where it is "
         "up" SIGN},
        {NULL, MOVES("rise = 4.4"), ""},
        {NULL, MOVES("rise = 'pitch'"), ""},
        {NULL, MOVES("rise = 12"), ""}, /* three times is not more than three times */
        {NULL, MOVES("rise = 12.1"),
         SHOP(2) "12.1 mm a turn, more than three times as far as in base.lua:6, where it is 4 mm a "
                 "turn" UNIT},
        {NULL, MOVES("rise = 1.34"), ""},
        {NULL, MOVES("rise = 1.33"),
         SHOP(2) "1.33 mm a turn, less than a third as far as in base.lua:6, where it is 4 mm a turn" UNIT},
        {NULL, MOVES("rise = 'down'"),
         "shop.lua:2: screw moves rise down, the other way than in base.lua:6, where it is 4 mm a turn" SIGN},
        {NULL, MOVES("rise = 'stated'"), ""}, /* the sheet says how far, and which way */
        {NULL, MOVES("rise = 'strong'"), ""},
        {NULL, MOVES("rise = false"), ""},
        /* ways and sign together say the same as before */
        {NULL, "adjuster { 'screw', more = 'out', less = 'in', moves = { rise = -4, fall = 'down' } }", ""},
        /* against the book that it uses, which is not always the first */
        {MOVES("rise = -4"), MOVES("rise = -4.2"), ""},
        {MOVES("rise = -4"), MOVES("rise = 4"),
         SHOP(2) "4 mm a turn, the other way than in middle.lua:2, where it is -4 mm a turn" SIGN},
        {MOVES("rise = -4"), "",
         "middle.lua:2: screw moves rise by -4 mm a turn, the other way than in base.lua:6, where it is 4 mm "
         "a turn" SIGN},
        /* what it replaces could not be used: the shop mends it */
        {MOVES("rise = 'pitch * pitch'"), MOVES("rise = 4"), ""},
    };
    check_shops(shops, sizeof shops / sizeof *shops, true);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_contradiction_stands_at_the_line_that_made_it),
        cmocka_unit_test(a_move_that_was_turned_round_is_warned_of),
    };
    return cmocka_run_group_tests(tests, NULL, NULL) + wrong_messages;
}
