/* block.c - the findings of one step while they are told, a group a line (layer: render/text). */
#include "page.h"

#include <stdlib.h>

bool hl__is_told_of(const hl_finding *finding, hl_verdict verdict)
{
    return finding->verdict == verdict && (verdict != HL_PASS || finding->model_differs);
}

bool hl__block_start(hl_block *in, const hl_audit *audit, int step)
{
    *in = (hl_block){.findings = audit->findings + audit->first[step],
                     .n = audit->first[step + 1] - audit->first[step]};
    in->told = calloc(in->n + 1, sizeof *in->told);
    in->works = calloc(in->n + 1, sizeof *in->works);
    in->room = calloc(in->n + 1, sizeof *in->room);
    if (!in->told || !in->works || !in->room)
        return false;
    for (size_t i = 0; i < in->n; i++) {
        const hl_finding *finding = &in->findings[i];
        if (finding->verdict == HL_STALE)
            hl__works_since(&in->works[i], audit, finding);
        in->work = in->work || finding->n_corrections > 0;
        in->n_strange += hl__is_told_of(finding, HL_PASS);
    }
    return true;
}

void hl__block_free(hl_block *in)
{
    free(in->told);
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
    while (i < in->n && (in->told[i] || !hl__is_told_of(&in->findings[i], verdict)))
        i++;
    *group = (hl_group){.members = in->room};
    for (size_t j = i; j < in->n; j++) {
        if (in->told[j] || !hl__is_told_of(&in->findings[j], verdict) || !share_a_line(in, i, j))
            continue;
        in->told[j] = true;
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
