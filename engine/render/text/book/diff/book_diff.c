/* book_diff.c - what a shop's book changes against another, a line a difference (layer: render/text).
 *
 * Every field that a rule file can give is compared, with its value: a test goes through them all.  Cautions
 * come first: they keep a piano from harm. */
#include "diff.h"

#include "number.h"

#include <string.h>

/* ---- cautions and stages ----------------------------------------------------------------------- */

static int find_stage(const hl_book *book, const char *id)
{
    for (int i = 0; i < book->n_stages; i++)
        if (strcmp(book->stages[i].id, id) == 0)
            return i;
    return -1;
}

static hl_diff_thing about_stage(const hl_stage *stage)
{
    return (hl_diff_thing){"stage", stage->id, NULL, 0, stage->origin};
}

static void compare_cautions(hl_diff *of)
{
    for (int i = 0; i < of->b->n_stages; i++) {
        const hl_diff_thing it = about_stage(&of->b->stages[i]);
        const int old = find_stage(of->a, it.id);
        hl__diff_text(of, &it, "caution", old >= 0 ? of->a->stages[old].caution : "",
                      of->b->stages[i].caution);
    }
    for (int i = 0; i < of->a->n_stages; i++) {
        const hl_diff_thing it = about_stage(&of->a->stages[i]);
        if (find_stage(of->b, it.id) < 0)
            hl__diff_text(of, &it, "caution", of->a->stages[i].caution, "");
    }
    for (int s = 0; s < of->b->n_steps; s++) {
        const hl_diff_thing it = hl__diff_step(&of->b->steps[s]);
        const int old = hl_book_find_step(of->a, it.id);
        hl__diff_text(of, &it, "caution", old >= 0 ? of->a->steps[old].caution : "", of->b->steps[s].caution);
    }
    for (int s = 0; s < of->a->n_steps; s++) {
        const hl_diff_thing it = hl__diff_step(&of->a->steps[s]);
        if (hl_book_find_step(of->b, it.id) < 0)
            hl__diff_text(of, &it, "caution", of->a->steps[s].caution, "");
    }
}

static void compare_stages(hl_diff *of)
{
    hl_text before = {0}, after = {0};
    for (int i = 0; i < of->a->n_stages; i++) {
        const hl_diff_thing it = about_stage(&of->a->stages[i]);
        if (find_stage(of->b, it.id) < 0)
            hl__diff_gone(of, &it);
        else
            hl__diff_listed(&before, it.id);
    }
    for (int i = 0; i < of->b->n_stages; i++) {
        const hl_diff_thing it = about_stage(&of->b->stages[i]);
        const int old = find_stage(of->a, it.id);
        if (old < 0) {
            hl__diff_new(of, &it, "new stage", it.origin);
            continue;
        }
        hl__diff_listed(&after, it.id);
        hl__diff_text(of, &it, "title", of->a->stages[old].title, of->b->stages[i].title);
    }
    const hl_diff_thing book = {"book", of->b->id, NULL, 0, of->b->files[0]};
    hl__diff_made(of, &book, "order of the stages", &before, &after);
}

/* ---- choices, diagnoses, sources --------------------------------------------------------------- */

static const hl_chosen *find_chosen(const hl_book *book, const char *id)
{
    for (int i = 0; i < book->n_choices; i++)
        if (strcmp(book->choices[i].id, id) == 0)
            return &book->choices[i];
    return NULL;
}

static void list_options(hl_text *out, const hl_chosen *choice)
{
    for (int i = 0; i < choice->n_options; i++)
        hl__text_printf(out, "%s%s: %s", i > 0 ? "; " : "", choice->options[i].name, choice->options[i].text);
}

static void compare_choices(hl_diff *of)
{
    hl__leaf_choices_differ(&of->leaf, of->a, of->b);
    for (int i = 0; i < of->a->n_choices; i++) {
        const hl_diff_thing it = {"choice", of->a->choices[i].id, NULL, 0, of->a->choices[i].origin};
        if (find_chosen(of->b, it.id) == NULL)
            hl__diff_gone(of, &it);
    }
    for (int i = 0; i < of->b->n_choices; i++) {
        const hl_chosen *new = &of->b->choices[i], *old = find_chosen(of->a, new->id);
        const hl_diff_thing it = {"choice", new->id, NULL, 0, new->origin};
        hl_text before = {0}, after = {0};
        if (old == NULL) {
            hl__diff_new(of, &it, "new choice", it.origin);
            continue;
        }
        list_options(&before, old);
        list_options(&after, new);
        hl__diff_text(of, &it, "title", old->title, new->title);
        hl__diff_made(of, &it, "options", &before, &after);
        hl__diff_text(of, &it, "source", old->source, new->source);
    }
}

static int find_diagnosis(const hl_book *book, const char *id)
{
    for (int i = 0; i < book->n_diagnoses; i++)
        if (strcmp(book->diagnoses[i].id, id) == 0)
            return i;
    return -1;
}

static const char *quiet_by(const hl_book *book, const hl_diagnosis *diagnosis)
{
    return diagnosis->quiet_by >= 0 ? book->diagnoses[diagnosis->quiet_by].id : "";
}

static void compare_causes(hl_diff *of, const hl_diff_thing *it, const hl_diagnosis *old,
                           const hl_diagnosis *new)
{
    static const hl_cause none = {"", "", ""};
    const int n = old->n_causes > new->n_causes ? old->n_causes : new->n_causes;
    for (int i = 0; i < n; i++) {
        const hl_cause *a = i < old->n_causes ? &old->causes[i] : &none;
        const hl_cause *b = i < new->n_causes ? &new->causes[i] : &none;
        hl_text names[3] = {{0}, {0}, {0}};
        static const char *const parts[] = {"cause", "test of cause", "todo of cause"};
        for (int k = 0; k < 3; k++) {
            hl__text_printf(&names[k], "%s %d", parts[k], i + 1);
            of->leaf.out->failed |= names[k].failed;
        }
        if (names[0].data && names[1].data && names[2].data) {
            hl__diff_text(of, it, names[0].data, a->cause, b->cause);
            hl__diff_text(of, it, names[1].data, a->test, b->test);
            hl__diff_text(of, it, names[2].data, a->todo, b->todo);
        }
        for (int k = 0; k < 3; k++)
            hl__text_free(&names[k]);
    }
}

static void compare_diagnoses(hl_diff *of)
{
    static const char *const spreads[] = {"note", "wide"};
    for (int i = 0; i < of->a->n_diagnoses; i++) {
        const hl_diff_thing it = {"diagnosis", of->a->diagnoses[i].id, NULL, 0, of->a->diagnoses[i].origin};
        if (find_diagnosis(of->b, it.id) < 0)
            hl__diff_gone(of, &it);
    }
    for (int i = 0; i < of->b->n_diagnoses; i++) {
        const hl_diagnosis *new = &of->b->diagnoses[i];
        const hl_diff_thing it = {"diagnosis", new->id, NULL, 0, new->origin};
        const int at = find_diagnosis(of->a, new->id);
        if (at < 0) {
            hl__diff_new(of, &it, "new diagnosis", it.origin);
            continue;
        }
        const hl_diagnosis *old = &of->a->diagnoses[at];
        hl__diff_text(of, &it, "title", old->title, new->title);
        hl__diff_text(of, &it, "when", old->when->text, new->when->text);
        hl__diff_text(of, &it, "spread", spreads[old->spread], spreads[new->spread]);
        hl__diff_text(of, &it, "quiet_by", quiet_by(of->a, old), quiet_by(of->b, new));
        compare_causes(of, &it, old, new);
        hl__diff_text(of, &it, "source", old->source, new->source);
    }
}

static const hl_source *find_source(const hl_book *book, const char *key)
{
    for (int i = 0; i < book->n_sources; i++)
        if (strcmp(book->sources[i].key, key) == 0)
            return &book->sources[i];
    return NULL;
}

static void compare_sources(hl_diff *of)
{
    for (int i = 0; i < of->a->n_sources; i++) {
        const hl_diff_thing it = {"source", of->a->sources[i].key, NULL, 0, of->a->sources[i].origin};
        if (find_source(of->b, it.id) == NULL)
            hl__diff_gone(of, &it);
    }
    for (int i = 0; i < of->b->n_sources; i++) {
        const hl_source *new = &of->b->sources[i], *old = find_source(of->a, new->key);
        const hl_diff_thing it = {"source", new->key, NULL, 0, new->origin};
        if (old == NULL) {
            hl__diff_new(of, &it, "new source", it.origin);
            continue;
        }
        hl__diff_text(of, &it, "kind", old->kind, new->kind);
        hl__diff_text(of, &it, "archive", old->archive, new->archive);
        hl__diff_text(of, &it, "subject", old->subject, new->subject);
        hl__diff_text(of, &it, "date", old->date, new->date);
        hl__diff_text(of, &it, "differs", old->differs, new->differs);
    }
}

static const char *find_renamed(const hl_book *book, const char *was)
{
    for (int i = 0; i < book->n_renamed; i++)
        if (strcmp(book->renamed[i].was, was) == 0)
            return book->renamed[i].is;
    return "";
}

/* Names of before, under which older sheets and books are read. */
static void compare_renamed(hl_diff *of)
{
    const hl_book *const books[] = {of->b, of->a};
    for (int k = 0; k < 2; k++)
        for (int i = 0; i < books[k]->n_renamed; i++) {
            const char *was = books[k]->renamed[i].was;
            const hl_diff_thing it = {"name of before", was, NULL, 0, of->b->files[0]};
            if (k == 0 || find_renamed(of->b, was)[0] == '\0')
                hl__diff_text(of, &it, "now", find_renamed(of->a, was), find_renamed(of->b, was));
        }
}

/* ---- the book itself --------------------------------------------------------------------------- */

static void compare_compass(hl_diff *of)
{
    const hl_compass old = of->a->compass, new = of->b->compass;
    hl_text line = {0};
    if (old.lowest == new.lowest && old.keys == new.keys)
        return;
    hl__text_add(&line, "compass ");
    hl__text_add(&line, hl_pitch_name(old.lowest));
    hl__text_printf(&line, "-%s becomes ", hl_pitch_name(hl_note_pitch(old, old.keys)));
    hl__text_add(&line, hl_pitch_name(new.lowest));
    hl__text_printf(&line, "-%s", hl_pitch_name(hl_note_pitch(new, new.keys)));
    hl__leaf_add(&of->leaf, &line, 0, HL_DIFF_HANG);
}

static void compare_head(hl_diff *of)
{
    const hl_diff_thing it = {"book", of->b->id, NULL, 0, of->b->files[0]};
    hl_text before = {0}, after = {0};
    compare_compass(of);
    hl__diff_text(of, &it, "title", of->a->title, of->b->title);
    hl__diff_text(of, &it, "about", of->a->about, of->b->about);
    hl__text_exact(&before, of->a->stale_share);
    hl__text_exact(&after, of->b->stale_share);
    hl__diff_made(of, &it, "stale_share", &before, &after);
}

hl_code hl_book_diff(char **out, size_t *size, const hl_book *a, const hl_book *b, const hl_print *print,
                     hl_err *err)
{
    hl_text page = {0};
    hl_diff of = {hl__leaf_start(&page, b, print), a, b};
    *out = NULL;
    compare_cautions(&of);
    compare_head(&of);
    compare_stages(&of);
    compare_choices(&of);
    hl__diff_floats(&of);
    hl__diff_steps(&of);
    hl__diff_facts(&of);
    hl__diff_adjusters(&of);
    hl__diff_acknowledged(&of, true);
    hl__diff_acknowledged(&of, false);
    compare_diagnoses(&of);
    compare_sources(&of);
    compare_renamed(&of);
    return hl__text_take(&page, out, size, err);
}
