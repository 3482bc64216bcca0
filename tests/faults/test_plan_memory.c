/* The machine runs out of memory at every place where a plan is made or printed: the n-th allocation
 * and all later ones fail, for n = 0, 1, 2 ... until nothing does.
 *
 * Linked with --wrap=malloc,calloc,realloc; leaks are the sanitizers' to find. */
#include "planned.h"

/* How many more allocations succeed; -1 = all. */
static long left = -1;

void *__real_malloc(size_t size);
void *__real_calloc(size_t n, size_t size);
void *__real_realloc(void *block, size_t size);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t n, size_t size);
void *__wrap_realloc(void *block, size_t size);

static bool may(void)
{
    if (left == 0)
        return false;
    if (left > 0)
        left--;
    return true;
}

void *__wrap_malloc(size_t size)
{
    return may() ? __real_malloc(size) : NULL;
}

void *__wrap_calloc(size_t n, size_t size)
{
    return may() ? __real_calloc(n, size) : NULL;
}

void *__wrap_realloc(void *block, size_t size)
{
    return may() ? __real_realloc(block, size) : NULL;
}

/* Something of everything: a line, a conflict, geometry, work by feel, a masked reading, parts. */
static const char FAULTS[] = "C4,blow,48\nC4,aftertouch,0.7\nD4,repetition,weak\nE4,aftertouch,0.2\n"
                             "F4,key_dip,10.3\nF4,aftertouch,1.4\nG4,key_level,-0.5\nA4,downweight,58\n"
                             "A4,upweight,20\nC5,let_off,over\n";

static hl_code plan_and_print(const hl_audit *audit, hl_err *err)
{
    static const char *const lines[] = {"blow"};
    static const char *const without[] = {"drop_screw"};
    const hl_plan_options options = {.lines = lines, .n_lines = 1, .without = without, .n_without = 1};
    hl_plan *plan = NULL;
    char *text = NULL, *json = NULL;
    size_t size = 0;
    hl_code code = hl_plan_run(&plan, audit, &options, err);
    if (code == HL_OK)
        code = hl_plan_text(&text, &size, plan, NULL, err);
    if (code == HL_OK)
        code = hl_plan_json(&json, &size, plan, err);
    hl_free(json);
    hl_free(text);
    hl_plan_free(plan);
    return code;
}

static void test_every_allocation_of_a_plan_may_fail(void **state)
{
    (void)state;
    judged j = judge_finished(small_book(), FAULTS);
    hl_code code = HL_E_MEMORY;
    long n = 0;
    for (; code != HL_OK; n++) {
        hl_err err = {0};
        left = n;
        code = plan_and_print(j.audit, &err);
        left = -1;
        if (code != HL_OK)
            assert_int_equal(err.code, HL_E_MEMORY);
        assert_true(n < 100000);
    }
    assert_true(n > 20);
    put_away(&j);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_every_allocation_of_a_plan_may_fail)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
