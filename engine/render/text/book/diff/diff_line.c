/* diff_line.c - a field that two books give otherwise, in one line (layer: render/text). */
#include "diff.h"

#include "sentence.h"

#include <string.h>

void hl__diff_add(hl_diff *of, hl_text *line, hl_origin where)
{
    hl__say_place(line, where);
    hl__leaf_add(&of->leaf, line, 0, HL_DIFF_HANG);
}

void hl__diff_why(hl_text *line, const char *why)
{
    if (!why[0])
        return;
    hl__text_add(line, ": ");
    hl__text_safe(line, why);
}

/* What a field belongs to: how a line names it, and where b says it. */
typedef struct thing {
    const char *word, *id; /* word "": a step or an adjuster, which are known by their ids */
    const hl_change *changes;
    int n_changes;
    hl_origin origin;
} thing;

void hl__diff_start(hl_text *line, const hl_diff_thing *of)
{
    hl__text_add(line, of->word);
    hl__text_add(line, of->word[0] ? " " : "");
    hl__text_safe(line, of->id);
    hl__text_add(line, ": ");
}

/* The change that last set a field; NULL when the first entry's word holds. */
const hl_change *hl__diff_change(const hl_diff_thing *of, const char *field)
{
    for (int i = of->n_changes; i-- > 0;)
        if (strcmp(of->changes[i].field, field) == 0)
            return &of->changes[i];
    return NULL;
}

void hl__diff_finish(hl_diff *of, hl_text *line, const hl_diff_thing *it, const char *field)
{
    const hl_change *change = hl__diff_change(it, field);
    if (change)
        hl__diff_why(line, change->why);
    hl__diff_add(of, line, change ? change->origin : it->origin);
}

static void add_quoted(hl_text *line, const char *text)
{
    hl__text_add(line, text[0] ? "\"" : "(none)");
    hl__text_safe(line, text);
    hl__text_add(line, text[0] ? "\"" : "");
}

void hl__diff_text(hl_diff *of, const hl_diff_thing *it, const char *field, const char *old, const char *new)
{
    hl_text line = {0};
    if (strcmp(old, new) == 0)
        return;
    hl__diff_start(&line, it);
    hl__text_add(&line, field);
    hl__text_char(&line, ' ');
    add_quoted(&line, old);
    hl__text_add(&line, " becomes ");
    add_quoted(&line, new);
    hl__diff_finish(of, &line, it, field);
}

/* Two texts that were put together for this; empties them. */
void hl__diff_made(hl_diff *of, const hl_diff_thing *it, const char *field, hl_text *old, hl_text *new)
{
    of->leaf.out->failed |= old->failed || new->failed;
    hl__diff_text(of, it, field, old->data ? old->data : "", new->data ? new->data : "");
    hl__text_free(old);
    hl__text_free(new);
}

void hl__diff_flag(hl_diff *of, const hl_diff_thing *it, const char *field, bool old, bool new)
{
    hl__diff_text(of, it, field, old ? "yes" : "no", new ? "yes" : "no");
}

static void say_stated(hl_text *line, hl_amount value, hl_unit unit)
{
    if (value == 0)
        hl__text_add(line, "(none)");
    else
        hl__say_amount(line, value, unit, 0);
}

void hl__diff_amount(hl_diff *of, const hl_diff_thing *it, const char *field, hl_amount old, hl_unit old_unit,
                     hl_amount new, hl_unit new_unit)
{
    hl_text line = {0};
    if (old == new)
        return;
    hl__diff_start(&line, it);
    hl__text_add(&line, field);
    hl__text_char(&line, ' ');
    say_stated(&line, old, old_unit);
    hl__text_add(&line, " becomes ");
    say_stated(&line, new, new_unit);
    hl__diff_finish(of, &line, it, field);
}

void hl__diff_new(hl_diff *of, const hl_diff_thing *it, const char *what, hl_origin where)
{
    hl_text line = {0};
    hl__diff_start(&line, it);
    hl__text_add(&line, what);
    hl__diff_add(of, &line, where);
}

void hl__diff_gone(hl_diff *of, const hl_diff_thing *it)
{
    hl_text line = {0};
    hl__diff_start(&line, it);
    hl__text_add(&line, "not in book ");
    hl__text_safe(&line, of->b->id);
    hl__diff_add(of, &line, it->origin);
}

/* "a, b" of the ids of a list. */
void hl__diff_listed(hl_text *out, const char *id)
{
    hl__text_add(out, out->size > 0 ? ", " : "");
    hl__text_add(out, id);
}
