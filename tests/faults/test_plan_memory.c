/* The machine runs out of memory at every place where a plan is made or printed: the n-th allocation
 * fails, alone or with all after it, for n = 0, 1, 2 ... until nothing does.  With one failure alone
 * the plan is either refused or the whole one.
 *
 * Linked with --wrap=malloc,calloc,realloc; leaks are the sanitizers' to find. */
#include "changed_book.h"
#include "hammerline.h"
#include "planned.h"
#include "short_memory.h"

/* Something of everything: a line, a conflict, geometry, work by feel, a dip that waits until its key is
 * level, a blow that lands a hair from its neighbours, parts. */
static const char FAULTS[] =
    "C4,blow,48\nC4,aftertouch,0.7\nD4,repetition,weak\nE4,aftertouch,0.2\n"
    "F4,key_dip,10.3\nF4,aftertouch,1.4\nG4,key_level,-0.5\nA4,downweight,58\n"
    "A4,upweight,20\nC5,let_off,over\nD5,key_level,-0.5\nD5,key_dip,9.5\nF5,blow,48\n";

static hl_code plan_and_print(const hl_audit *audit, char **json, hl_err *err)
{
    static const char *const lines[] = {"blow"};
    static const char *const without[] = {"drop_screw"};
    const hl_plan_options options = {.lines = lines, .n_lines = 1, .without = without, .n_without = 1};
    hl_plan *plan = NULL;
    char *text = NULL;
    size_t size = 0;
    *json = NULL;
    hl_code code = hl_plan_run(&plan, audit, &options, err);
    if (code == HL_OK)
        code = hl_plan_text(&text, &size, plan, NULL, err);
    if (code == HL_OK)
        code = hl_plan_json(json, &size, plan, err);
    hl_free(text);
    hl_plan_free(plan);
    return code;
}

static void test_every_allocation_of_a_plan_may_fail(void **state)
{
    (void)state;
    hl_book *book = small_book();
    set_mask(book, "key_level", "key_dip");
    judged j = judge_finished(book, FAULTS);
    char *whole = NULL;
    hl_err err = {0};
    const long before = memory_asked;
    assert_int_equal(plan_and_print(j.audit, &whole, &err), HL_OK);
    const long n = memory_asked - before;
    assert_true(n > 20);
    for (long k = 0; k < 2 * n; k++) {
        char *json = NULL;
        memory_once = k % 2 == 1;
        memory_left = k / 2;
        const hl_code code = plan_and_print(j.audit, &json, &err);
        memory_left = -1;
        if (code == HL_OK)
            assert_string_equal(json, whole);
        else
            assert_int_equal(err.code, HL_E_MEMORY);
        hl_free(json);
    }
    hl_free(whole);
    put_away(&j);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_every_allocation_of_a_plan_may_fail)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
