/* host.h - the Lua side's one door: from rule files to a flattened book (layer: host).
 *
 * It implements hl_book_open(), hl_rule_tests_open() and hl_rule_tests_free() of hammerline.h. */
#ifndef HL_HOST_H
#define HL_HOST_H

#include "book.h"
#include "hammerline/book.h"
#include "rule_test.h"

/* What the rule language offers, for the check against rules/meta/words.lua: the i-th word
 * ("step"), or field ("step.id"); NULL past the end. */
const char *hl__host_word(int i);
const char *hl__host_field(int i);

#endif
