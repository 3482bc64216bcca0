/* lead_list.c - the leads of a plan: which notes want them, and what they come to (layer: render/text).
 *
 * The plan says how many grams a key's front should gain or lose; here is the metal that gives it. */
#include "lead_list.h"

#include "errors.h"
#include "number.h"
#include "sentence.h"

#define HALF_GRAM (HL_ONE / 2)

static const hl_finding *find_out(const hl_audit *audit, int step, int note)
{
    for (size_t i = audit->findings.first[step]; i < audit->findings.first[step + 1]; i++)
        if (audit->findings.items[i].note == note && audit->findings.items[i].verdict == HL_FAIL)
            return &audit->findings.items[i];
    return NULL;
}

bool hl__lead_wanted(const hl_audit *audit, int note, hl_leads *out)
{
    hl_err err;
    int step = hl_book_find_step(audit->book, "mean_weight");
    const hl_finding *mean = step < 0 ? NULL : find_out(audit, step, note);
    if (mean == NULL || hl_leads_for_note(out, audit, note, NULL, &err) != HL_OK ||
        out->by == HL_LEADS_LACKING)
        return false;
    /* too little friction makes the weights as doubtful as too much: the audit has put it first */
    out->friction_first |= hl__judge_mask(&audit->table, step, note) >= 0;
    return out->friction_first || out->n_leads > 0;
}

static void say_pieces(hl_text *line, const hl_leads *leads)
{
    for (int i = 0; i < leads->n_leads; i++) {
        hl__text_add(line, i == 0 ? "" : i + 1 == leads->n_leads ? " and " : ", ");
        hl__say_amount(line, leads->leads[i].mass, HL_G, HL_ONE);
        hl__text_add(line, " at ");
        hl__say_amount(line, leads->leads[i].place, HL_MM, HL_ONE);
    }
    hl__text_add(line, " from the balance pin");
}

static void add_note(hl_plan_page *at, int note, const hl_leads *leads)
{
    hl_text line = {0};
    hl__text_printf(&line, "%s: ", hl_pitch_name(hl_note_pitch(at->page.audit->sheet->compass, note)));
    if (leads->friction_first) {
        hl__text_add(&line, "friction first; weigh again, and only then think of lead.");
        hl__page_add(&at->page, &line, HL_INK_PLAIN, 2, 6);
        return;
    }
    hl__text_add(&line, leads->remove ? "take out " : "put in ");
    hl__text_add(&line, leads->assumed ? "about " : "");
    say_pieces(&line, leads);
    hl__text_add(&line, leads->remove ? ", and plug the holes. " : ". ");
    hl__text_add(&line, "Mean weight ");
    hl__say_amount(&line, hl__round_to(leads->mean, HALF_GRAM), HL_G, HALF_GRAM);
    hl__text_add(&line, "; expect ");
    hl__say_amount(&line, hl__round_to(leads->predicted, HALF_GRAM), HL_G, HALF_GRAM);
    hl__text_add(&line, leads->lands ? "." : ", still out of range.");
    if (leads->too_much)
        hl__text_add(&line,
                     " That is more lead than the shop wants in one key: look at friction and geometry "
                     "before you drill.");
    if (leads->sampled)
        hl__text_add(&line, " A weight was taken from the line between samples.");
    hl__page_add(&at->page, &line, HL_INK_PLAIN, 2, 6);
}

void hl__plan_page_leads(hl_plan_page *at)
{
    bool begun = false;
    if (at->plan->inspect_only)
        return;
    for (int note = 1; note <= at->page.audit->sheet->compass.keys; note++) {
        hl_leads leads;
        if (!hl__lead_wanted(at->page.audit, note, &leads))
            continue;
        if (!begun)
            hl__plan_heading(at, "key leads");
        begun = true;
        add_note(at, note, &leads);
    }
}
