/* build_book.c - the parts of a book in the order in which they need each other (layer: host/build). */
#include "build.h"

hl_code hl__build(hl_book *book, const hl_draft *draft, hl_err *err)
{
    static hl_code (*const parts[])(hl_builder *) = {
        hl__build_head,      hl__build_stages,  hl__build_facts,        hl__build_steps,
        hl__build_adjusters, hl__build_targets, hl__build_references,   hl__build_formulas,
        hl__build_moves,     hl__build_float,   hl__build_acknowledged, hl__build_diagnoses,
        hl__build_choices,   hl__build_sources, hl__build_files,
    };
    hl_builder b = {book, draft, err};
    hl_code code = HL_OK;
    for (size_t i = 0; code == HL_OK && i < sizeof parts / sizeof *parts; i++)
        code = parts[i](&b);
    return code;
}
