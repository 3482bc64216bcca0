/* opened_book.h - opening a book that should open, and looking at its targets. */
#ifndef OPENED_BOOK_H
#define OPENED_BOOK_H

#include "rule_folder.h"

#define C4  48 /* pitches, C0 = 0 */
#define CS4 49
#define C8  96

static inline hl_book *open_or_fail(rule_folder *folder, const char *name)
{
    hl_book *book;
    hl_err err;
    if (open_book(folder, name, &book, &err) != HL_OK) {
        print_error("%s:%d: %s; %s\n", err.file, err.line, err.what, err.todo);
        fail();
    }
    return book;
}

static inline const hl_step *step_of(const hl_book *book, const char *id)
{
    const int at = hl_book_find_step(book, id);
    assert_true(at >= 0);
    return hl_book_step(book, at);
}

static inline void assert_target(const hl_step *step, int pitch, double low, double aim, double high)
{
    const hl_target *target = &step->targets[pitch];
    assert_int_equal(target->low, (hl_amount)(low * 1e6 + 0.5));
    assert_int_equal(target->aim, (hl_amount)(aim * 1e6 + 0.5));
    assert_int_equal(target->high, (hl_amount)(high * 1e6 + 0.5));
}

#endif
