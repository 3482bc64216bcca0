/* groups.c - which findings one line can tell of (layer: render/text).
 *
 * Everything that the line says in one word must be the same; readings, predictions and targets may
 * differ and are shown as spans. */
#include "groups.h"

#include "notes.h"

#include <stdlib.h>
#include <string.h>

static bool same_pieces(const hl_correction *a, const hl_correction *b)
{
    for (int i = 0; i < HL_PIECES; i++)
        if (a->pieces[i] != b->pieces[i])
            return false;
    return true;
}

bool hl__same_ints(const int *a, int n_a, const int *b, int n_b)
{
    if (n_a != n_b)
        return false;
    for (int i = 0; i < n_a; i++)
        if (a[i] != b[i])
            return false;
    return true;
}

static bool same_correction(const hl_correction *a, const hl_correction *b)
{
    return a->adjuster == b->adjuster && a->more == b->more && a->has_amount == b->has_amount &&
           (!a->has_amount || a->amount == b->amount) && same_pieces(a, b) &&
           a->has_predicted == b->has_predicted && a->lands == b->lands &&
           a->beyond_reach == b->beyond_reach && a->assumed == b->assumed && a->learned == b->learned &&
           hl__same_ints(a->spoils, a->n_spoils, b->spoils, b->n_spoils);
}

/* The other ways out are named by adjuster and way only. */
static bool same_ways(const hl_finding *a, const hl_finding *b)
{
    for (int i = 1; i < a->n_corrections; i++)
        if (a->corrections[i].adjuster != b->corrections[i].adjuster ||
            a->corrections[i].more != b->corrections[i].more)
            return false;
    return true;
}

/* A remark is what the line is about for a skip and for a reading that has to wait for another step,
 * and a side note elsewhere. */
static bool remark_matters(const hl_finding *finding)
{
    return finding->why == HL_WHY_SKIPPED || (finding->verdict == HL_FAIL && finding->n_corrections == 0);
}

bool hl__findings_alike(const hl_finding *a, const hl_finding *b)
{
    if (a->step != b->step || a->verdict != b->verdict || a->why != b->why || a->go != b->go ||
        a->has_value != b->has_value || a->word != b->word || a->computed != b->computed ||
        a->assumed != b->assumed || a->n_corrections != b->n_corrections)
        return false;
    if (a->model_differs != b->model_differs || (a->model_differs && a->model_assumed != b->model_assumed))
        return false;
    if (a->follows != b->follows || a->hangs != b->hangs ||
        ((a->follows || a->hangs) && a->follows_step != b->follows_step))
        return false;
    if (a->presumed != b->presumed || (a->presumed && (a->presumed_adjuster != b->presumed_adjuster ||
                                                       a->presumed_step != b->presumed_step)))
        return false;
    if (a->why == HL_WHY_UNEVEN && (a->shift < 0) != (b->shift < 0))
        return false;
    if (remark_matters(a) && strcmp(a->remark, b->remark) != 0)
        return false;
    if (a->n_corrections == 0)
        return true;
    return same_correction(&a->corrections[0], &b->corrections[0]) && same_ways(a, b);
}

void hl__group_span(const hl_group *of, hl_amount (*take)(const hl_finding *), hl_amount *low,
                    hl_amount *high)
{
    *low = *high = take(of->members[0]);
    for (int i = 1; i < of->n; i++) {
        const hl_amount value = take(of->members[i]);
        *low = value < *low ? value : *low;
        *high = value > *high ? value : *high;
    }
}

const hl_step *hl__group_step(const hl_page *page, const hl_group *of)
{
    return &page->audit->book->steps[of->members[0]->step];
}

void hl__page_notes(const hl_page *page, hl_text *out, const hl_finding *const *members, int n)
{
    int *notes = calloc((size_t)n + 1, sizeof *notes);
    if (!notes) {
        out->failed = true;
        return;
    }
    for (int i = 0; i < n; i++)
        notes[i] = members[i]->note;
    const hl_step *step = &page->audit->book->steps[members[0]->step];
    hl__notes_fold(out, page->audit->sheet->compass, step->scope, notes, n);
    free(notes);
}

/* ---- the findings of one step, a group a line --------------------------------------------------- */

bool hl__is_worth_saying(const hl_finding *finding, hl_verdict verdict)
{
    return finding->verdict == verdict && (verdict != HL_PASS || finding->model_differs);
}

bool hl__block_start(hl_block *in, const hl_audit *audit, int step)
{
    *in = (hl_block){.findings = audit->findings.items + audit->findings.first[step],
                     .n = audit->findings.first[step + 1] - audit->findings.first[step]};
    in->said = calloc(in->n + 1, sizeof *in->said);
    in->works = calloc(in->n + 1, sizeof *in->works);
    in->room = calloc(in->n + 1, sizeof *in->room);
    if (!in->said || !in->works || !in->room)
        return false;
    for (size_t i = 0; i < in->n; i++) {
        const hl_finding *finding = &in->findings[i];
        if (finding->verdict == HL_STALE)
            hl__works_since(&in->works[i], audit, finding);
        in->work = in->work || finding->n_corrections > 0;
        in->n_strange += hl__is_worth_saying(finding, HL_PASS);
    }
    return true;
}

void hl__block_free(hl_block *in)
{
    free(in->said);
    free(in->works);
    free(in->room);
}

static bool share_a_line(const hl_block *in, size_t i, size_t j)
{
    return hl__findings_alike(&in->findings[i], &in->findings[j]) &&
           (in->findings[i].verdict != HL_STALE || hl__works_same(&in->works[i], &in->works[j]));
}

bool hl__block_next(hl_block *in, hl_verdict verdict, hl_group *group)
{
    size_t i = 0;
    while (i < in->n && (in->said[i] || !hl__is_worth_saying(&in->findings[i], verdict)))
        i++;
    *group = (hl_group){.members = in->room};
    for (size_t j = i; j < in->n; j++) {
        if (in->said[j] || !hl__is_worth_saying(&in->findings[j], verdict) || !share_a_line(in, i, j))
            continue;
        in->said[j] = true;
        in->room[group->n++] = &in->findings[j];
    }
    return group->n > 0;
}

void hl__say_part(hl_text *out, int n, const char *words)
{
    if (n > 0)
        hl__text_printf(out, "%s%d %s", out->data && out->data[out->size - 1] == ':' ? " " : ", ", n, words);
}

void hl__say_headline(hl_text *out, const hl_audit *audit, int step, const hl_block *in)
{
    const int *count = audit->tallies[step].count;
    hl__text_safe(out, audit->book->steps[step].title);
    hl__text_char(out, ':');
    hl__say_part(out, count[HL_FAIL], "out");
    hl__say_part(out, count[HL_STALE], "to read again");
    hl__say_part(out, count[HL_DOUBTFUL], "in doubt");
    hl__say_part(out, in->n_strange, "to check");
}

/* ---- what there is to say ------------------------------------------------------------------------ */

bool hl__tally_clean(const hl_tally *tally)
{
    const int *count = tally->count;
    return count[HL_FAIL] + count[HL_DOUBTFUL] + count[HL_STALE] + count[HL_MISSING] == 0;
}

bool hl__step_silent(const hl_audit *audit, int step)
{
    if (!hl__tally_clean(&audit->tallies[step]))
        return false;
    for (size_t i = audit->findings.first[step]; i < audit->findings.first[step + 1]; i++)
        if (hl__is_worth_saying(&audit->findings.items[i], HL_PASS))
            return false;
    return true;
}

/* Open queries are behind the findings of the last step. */
int hl__count_queries(const hl_audit *audit)
{
    return (int)(audit->findings.n - audit->findings.first[audit->book->n_steps]);
}
