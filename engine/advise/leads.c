/* leads.c - the key front load that a note needs, from its weights (layer: advise).
 *
 * Here stand the names of the steps and facts that the equation speaks of; a book that calls them
 * otherwise can't be asked for leads.  A measured mean weight says more than a computed one: it
 * holds whatever the ratios are.  Without it, hammer, whippen and key front must have been weighed;
 * hammer and whippen by samples, since they run along the compass, the key front at its own key. */
#include "leads.h"

#include "audit.h"
#include "errors.h"
#include "guard_band.h"
#include "verdict.h"

#include <math.h>
#include <string.h>

typedef struct weighing {
    const hl_audit *audit;
    int note;
    hl_leads *out;
} weighing;

/* ---- what was read ----------------------------------------------------------------------- */

static const hl_finding *find_finding(const hl_audit *audit, const char *id, int note)
{
    int step = hl_book_find_step(audit->book, id);
    for (size_t i = step < 0 ? 1 : audit->findings.first[step];
         step >= 0 && i < audit->findings.first[step + 1]; i++)
        if (audit->findings.items[i].note == note)
            return &audit->findings.items[i];
    return NULL;
}

/* Only a fresh number counts: not stale, not missing, not a go/no-go reading.  Limits that only catch
 * a slip of the pen let a reading be moved far before they call it stale, so here the gauge decides. */
static bool read_value(const hl_audit *audit, const char *id, int note, hl_amount *value)
{
    const hl_finding *f = find_finding(audit, id, note);
    if (f == NULL || !f->has_value || (f->verdict != HL_PASS && f->verdict != HL_FAIL))
        return false;
    const hl_step *step = &audit->book->steps[f->step];
    hl_gauge_from from;
    const hl_amount gauge = hl__gauge_reading(audit->sheet, audit->book, f->step, &from);
    const hl_amount bears = gauge > step->resolution ? gauge : step->resolution;
    if (f->moved > bears || f->moved < -bears)
        return false;
    *value = f->value;
    return true;
}

/* The nearest note from `note` in one direction at which the weight was read; 0 when none. */
static int find_sample(const weighing *w, const char *id, int way, hl_amount *value)
{
    int step = hl_book_find_step(w->audit->book, id);
    const hl_sheet *sheet = w->audit->sheet;
    bool breaks = step >= 0 && w->audit->book->steps[step].breaks;
    for (int note = w->note + way; step >= 0 && note >= 1 && note <= sheet->compass.keys; note += way) {
        if (breaks && hl__sheet_section(sheet, note) != hl__sheet_section(sheet, w->note))
            return 0;
        if (read_value(w->audit, id, note, value))
            return note;
    }
    return 0;
}

/* At the note itself, or on the straight line between its nearest samples; held level outside. */
static bool read_weight(const weighing *w, const char *id, double *weight)
{
    hl_amount value = 0, below = 0, above = 0;
    if (read_value(w->audit, id, w->note, &value)) {
        *weight = (double)value / (double)HL_ONE;
        return true;
    }
    int low = find_sample(w, id, -1, &below), high = find_sample(w, id, 1, &above);
    if (low == 0 && high == 0)
        return false;
    double share = low == 0 ? 1 : high == 0 ? 0 : (double)(w->note - low) / (double)(high - low);
    *weight = ((double)below * (1 - share) + (double)above * share) / (double)HL_ONE;
    w->out->sampled = true;
    return true;
}

static bool read_fact(const weighing *w, const char *id, double *value)
{
    int fact = hl__book_find_fact(w->audit->book, id);
    bool assumed = false;
    if (fact < 0)
        return false;
    double stated = hl__sheet_value(w->audit->sheet, fact, w->note, &assumed);
    if (isnan(stated))
        return false;
    *value = stated;
    w->out->assumed = w->out->assumed || assumed;
    return true;
}

/* ---- what is needed ---------------------------------------------------------------------- */

static void note_lack(hl_leads *out, const char *id)
{
    if (out->lacks[0] == '\0')
        out->lacks = id;
}

/* Hammer and whippen at the key front, in grams; the first thing that lacks is named. */
static bool reckon_lifted(const weighing *w, double *lifted, const char **lacks)
{
    hl_weights weights = {0};
    *lacks = !read_weight(w, "hammer_weight", &weights.hammer)            ? "hammer_weight"
             : !read_weight(w, "whippen_weight", &weights.whippen)        ? "whippen_weight"
             : !read_fact(w, "hammer_leverage", &weights.hammer_leverage) ? "hammer_leverage"
             : !read_fact(w, "capstan_ratio", &weights.capstan_ratio)     ? "capstan_ratio"
                                                                          : NULL;
    *lifted = hl__lifted(&weights);
    return *lacks == NULL;
}

static void need_by_mean(const weighing *w)
{
    hl_leads *out = w->out;
    out->by = HL_LEADS_MEAN;
    out->change = out->mean - out->target;
    out->has_change = true;
    out->needed = out->front + out->change;
    out->has_needed = out->has_front;
}

static void need_by_weights(const weighing *w)
{
    hl_leads *out = w->out;
    double lifted = 0;
    hl_amount lifted_amount = 0;
    const char *lacks = NULL;
    if (!reckon_lifted(w, &lifted, &lacks) || !hl__amount_from(lifted, &lifted_amount)) {
        note_lack(out, lacks != NULL ? lacks : "hammer_weight");
        return;
    }
    out->needed = lifted_amount - out->target;
    out->has_needed = true;
    if (!out->has_front) {
        note_lack(out, "key_front_load");
        return;
    }
    out->by = HL_LEADS_WEIGHTS;
    out->mean = lifted_amount - out->front;
    out->change = out->needed - out->front;
    out->has_mean = out->has_change = true;
}

/* ---- which leads ------------------------------------------------------------------------- */

static bool open_box(const weighing *w, hl_lead_box *box)
{
    const hl_book *book = w->audit->book;
    int lead = hl_book_find_adjuster(book, "lead");
    *box = (hl_lead_box){0};
    if (!read_fact(w, "key_front", &box->key_front) || !(box->key_front > 0)) {
        note_lack(w->out, "key_front");
        return false;
    }
    if (lead < 0 || book->adjusters[lead].n_sizes == 0) {
        note_lack(w->out, "lead");
        return false;
    }
    box->sizes = book->adjusters[lead].sizes;
    box->n_sizes = book->adjusters[lead].n_sizes;
    box->farthest = box->key_front;
    read_fact(w, "lead_nearest", &box->nearest);
    read_fact(w, "lead_farthest", &box->farthest);
    read_fact(w, "lead_spacing", &box->spacing);
    read_fact(w, "lead_wood", &box->wood);
    bool sound = box->nearest >= 0 && box->farthest >= box->nearest && box->spacing >= 0 && box->wood >= 0 &&
                 box->wood < 1;
    if (!sound)
        note_lack(w->out, "lead_farthest");
    return sound;
}

static void foresee(const weighing *w, const hl_leads_ask *ask)
{
    hl_leads *out = w->out;
    const hl_book *book = w->audit->book;
    int step = hl_book_find_step(book, "mean_weight");
    double most = 0;
    out->predicted = out->mean - out->gives;
    hl_amount grain = book->steps[step].resolution;
    hl_amount read = grain > 0 ? hl__round_to(out->predicted, grain) : out->predicted;
    const hl_target *target = hl__book_target(book, step, hl_note_pitch(w->audit->sheet->compass, w->note));
    out->lands = hl__verdict_value(target, read).verdict == HL_PASS;
    if (ask != NULL && ask->has_carried)
        out->carried = ask->carried;
    else
        read_value(w->audit, "lead_in_key", w->note, &out->carried);
    out->carried += out->remove ? -out->lead : out->lead;
    if (out->carried < 0)
        out->carried = 0; /* more is taken out than anybody said was in */
    bool assumed = out->assumed;
    if (!out->remove && read_fact(w, "most_lead_per_key", &most))
        out->too_much = out->short_of || (double)out->carried / (double)HL_ONE > most;
    out->assumed = assumed;
}

static bool find_target(const weighing *w, const hl_leads_ask *ask)
{
    const hl_book *book = w->audit->book;
    int step = hl_book_find_step(book, "mean_weight");
    const hl_target *target = hl__book_target(book, step, hl_note_pitch(w->audit->sheet->compass, w->note));
    w->out->target = ask != NULL && ask->has_target ? ask->target : target->aim;
    return (ask != NULL && ask->has_target) || target->has_low || target->has_high;
}

static hl_code check_question(const hl_audit *audit, int note, hl_err *err)
{
    int step = hl_book_find_step(audit->book, "mean_weight");
    if (step < 0 || audit->book->steps[step].targets == NULL) {
        hl__fail(err, HL_E_USAGE, "the book '%s' knows no mean weight, so leads can't be reckoned",
                 audit->book->id);
        return hl__todo(err, "use a book with the step mean_weight, as grand has it");
    }
    if (note < 1 || note > audit->sheet->compass.keys) {
        hl__fail(err, HL_E_USAGE, "this piano has no note %d", note);
        return hl__todo(err, "name a note from 1 to %d", audit->sheet->compass.keys);
    }
    return HL_OK;
}

hl_code hl_leads_for_note(hl_leads *out, const hl_audit *audit, int note, const hl_leads_ask *ask,
                          hl_err *err)
{
    const weighing w = {audit, note, out};
    hl_lead_box box;
    *out = (hl_leads){.lacks = ""};
    hl_code code = check_question(audit, note, err);
    if (code != HL_OK)
        return code;
    if (!find_target(&w, ask)) {
        note_lack(out, "mean_weight");
        return HL_OK;
    }
    out->has_mean = read_value(audit, "mean_weight", note, &out->mean);
    out->has_front = read_value(audit, "key_front_load", note, &out->front);
    if (out->has_mean)
        need_by_mean(&w);
    else
        need_by_weights(&w);
    const hl_finding *friction = find_finding(audit, "friction", note);
    out->friction_first = friction != NULL && friction->verdict == HL_FAIL && friction->why == HL_WHY_HIGH;
    if (!out->has_change || !open_box(&w, &box))
        return HL_OK;
    hl__choose_leads(&box, out);
    foresee(&w, ask);
    return HL_OK;
}
