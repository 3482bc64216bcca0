/* build_book.c - the parts of a book in the order in which they need each other (layer: host/build). */
#include "build.h"

typedef hl_code part(hl_builder *);

static hl_code build_parts(hl_builder *b, part *const *parts, size_t n)
{
    hl_code code = HL_OK;
    for (size_t i = 0; code == HL_OK && i < n; i++)
        code = hl__build_keep(b, parts[i](b));
    return code;
}

hl_code hl__build(hl_book *book, const hl_draft *draft, hl_err *err)
{
    static part *const items[] = {hl__build_head,      hl__build_stages,  hl__build_facts,  hl__build_steps,
                                  hl__build_adjusters, hl__build_targets, hl__build_renamed};
    static part *const links[] = {hl__build_references, hl__build_formulas,     hl__build_moves,
                                  hl__build_float,      hl__build_acknowledged, hl__build_diagnoses,
                                  hl__build_choices,    hl__build_sources,      hl__build_old_names,
                                  hl__build_files};
    hl_builder b = {book, draft, err};
    const hl_complaints *all = draft->loader->box.all;
    hl_code code = build_parts(&b, items, sizeof items / sizeof *items);
    /* What refers to an item that is wrong would be wrong in turn. */
    if (code != HL_OK || (all != NULL && all->n > 0))
        return code;
    return build_parts(&b, links, sizeof links / sizeof *links);
}
