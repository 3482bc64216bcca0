/* judging.c - the options that say how an audit judges: its rule, its sample (layer: cli/commands). */
#include "options.h"
#include "output.h"

#include <string.h>

#define DIGITS_MOST 15 /* so that a seed stays whole in JSON, too */

/* Digits only; false when there are none, or too many. */
static bool read_digits(const char *text, size_t size, int64_t *out)
{
    *out = 0;
    if (size == 0 || size > DIGITS_MOST || strspn(text, "0123456789") < size)
        return false;
    for (size_t i = 0; i < size; i++)
        *out = *out * 10 + (text[i] - '0');
    return true;
}

static bool read_count(int *out, const option_row *row, const char *value)
{
    int64_t number = 0;
    if (!read_digits(value, strlen(value), &number) || number > 100000) {
        complain("--%s %s is no number of notes; write --%s 20", row->name, value, row->name);
        return false;
    }
    *out = (int)number;
    return true;
}

/* "95", "99.9", "99,9", "95%": as millionths of one, so at most four digits after the mark. */
static bool read_confidence(hl_amount *out, const char *value)
{
    size_t size = strlen(value), whole = strcspn(value, ".,"), rest = 0;
    int64_t percent = 0, part = 0;
    if (size > 0 && value[size - 1] == '%')
        size--;
    whole = whole < size ? whole : size;
    rest = whole < size ? size - whole - 1 : 0;
    bool good = read_digits(value, whole, &percent) && percent < 100 && rest <= 4 &&
                (whole == size || read_digits(value + whole + 1, rest, &part));
    for (size_t i = rest; i < 4; i++)
        part *= 10;
    *out = percent * 10000 + part;
    if (good && *out >= HL_ONE / 2)
        return true;
    complain("--confidence %s is no percentage from 50 to 100; write --confidence 95", value);
    return false;
}

static bool read_rule(hl_rule *out, const char *value)
{
    static const char *const names[] = {"simple", "guarded"};
    for (int i = 0; i < 2; i++) {
        if (strcmp(value, names[i]) == 0) {
            *out = (hl_rule)i;
            return true;
        }
    }
    complain("--rule %s is none of simple, guarded", value);
    return false;
}

static bool read_seed(uint64_t *out, const char *value)
{
    int64_t number = 0;
    if (!read_digits(value, strlen(value), &number)) {
        complain("--seed %s is no number of at most %d digits; write --seed 7", value, DIGITS_MOST);
        return false;
    }
    *out = (uint64_t)number;
    return true;
}

bool take_judging(hl_audit_options *out, const option_row *row, const char *value)
{
    switch (row->id) {
    case OPTION_RULE:
        return read_rule(&out->rule, value);
    case OPTION_SAMPLE:
        if (!read_count(&out->sample.notes, row, value))
            return false;
        if (out->sample.notes > 0)
            return true;
        complain("--sample 0 would show nothing; write --sample 20");
        return false;
    case OPTION_SEED:
        return read_seed(&out->sample.seed, value);
    case OPTION_CONFIDENCE:
        return read_confidence(&out->sample.confidence, value);
    case OPTION_AT_MOST:
        out->sample.has_at_most = true;
        return read_count(&out->sample.at_most, row, value);
    default:
        return true;
    }
}

bool check_judging(const hl_audit_options *judging)
{
    const hl_sample_ask *ask = &judging->sample;
    if (ask->notes > 0 || (!ask->has_at_most && ask->confidence == 0 && ask->seed == SEED_UNSAID))
        return true;
    complain("--seed, --confidence and --at-most belong to a sample; add --sample 20");
    return false;
}
