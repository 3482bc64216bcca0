/* rule_test.c - the book that a rule test file is about (layer: book). */
#include "rule_test.h"

const hl_book *hl_rule_tests_book(const hl_rule_tests *tests)
{
    return tests->book;
}
