/* works_since.c - the adjustments that have overtaken a reading (layer: render/text).
 *
 * The judge says that a reading is stale; what was done since then is in the sheet. */
#include "groups.h"

#include "sentence.h"
#include "wrap.h"

#include <string.h>

#define DEEPEST 8 /* derived steps of derived steps */

static long find_reading(const hl_audit *audit, int step, int note)
{
    const bool once = audit->book->steps[step].scope == HL_ONCE;
    return hl__sheet_latest(audit->sheet, step, once ? 0 : note);
}

static const hl_move *find_move(const hl_adjuster *adjuster, int step)
{
    for (int i = 0; i < adjuster->n_moves; i++)
        if (adjuster->moves[i].step == step && adjuster->moves[i].kind != HL_MOVE_SLIGHT)
            return &adjuster->moves[i];
    return NULL;
}

/* Did row `at`, an adjustment, move what the step's reading, or what it is computed from, rests on?
 * *known is cleared when nobody can say by how much. */
static bool overtakes(const hl_audit *audit, long at, int step, int note, int depth, bool *known)
{
    const hl_event *event = &audit->sheet->events[at];
    const long reading = find_reading(audit, step, note);
    const hl_move *move = find_move(&audit->book->adjusters[event->step], step);
    bool any = move && reading >= 0 && reading < at;
    if (any && (move->kind == HL_MOVE_STRONG || event->no_amount))
        *known = false;
    const hl_formula *formula = audit->book->steps[step].formula;
    for (int i = 0; formula && depth < DEEPEST && i < formula->n_vars; i++) {
        const hl_var *var = &formula->vars[i];
        if (var->kind != HL_VAR_STEP)
            continue;
        /* A step with a model has a reading of its own, and moves as the model does. */
        if (reading >= at)
            continue;
        any = overtakes(audit, at, var->index, note, depth + 1, known) || any;
    }
    return any;
}

static void add_work(hl_works *works, const hl_event *event)
{
    hl_work *work = NULL;
    for (int i = 0; i < works->n; i++)
        if (works->items[i].adjuster == event->step)
            work = &works->items[i];
    if (!work && works->n == HL_WORKS) {
        works->more = true;
        return;
    }
    if (!work) {
        work = &works->items[works->n++];
        *work = (hl_work){.adjuster = event->step};
    }
    work->amount += event->amount;
    work->no_amount = work->no_amount || event->no_amount;
    work->way = event->no_amount ? event->word : work->amount > 0 ? 1 : -1;
}

static bool is_near(const hl_audit *audit, const hl_event *event, int note)
{
    return event->note == 0 || event->note == note || audit->book->adjusters[event->step].whole;
}

bool hl__work_overtakes(const hl_audit *audit, size_t at, int step, int note)
{
    const hl_event *event = &audit->sheet->events[at];
    bool known = true;
    return event->kind == HL_EVENT_ADJUSTMENT && !event->withdrawn && is_near(audit, event, note) &&
           overtakes(audit, (long)at, step, note, 0, &known);
}

void hl__works_since(hl_works *works, const hl_audit *audit, const hl_finding *finding)
{
    const hl_sheet *sheet = audit->sheet;
    *works = (hl_works){.known = true};
    for (size_t i = 0; i < sheet->n_events; i++) {
        const hl_event *event = &sheet->events[i];
        if (event->kind != HL_EVENT_ADJUSTMENT || event->withdrawn)
            continue;
        if (is_near(audit, event, finding->note) &&
            overtakes(audit, (long)i, finding->step, finding->note, 0, &works->known))
            add_work(works, event);
    }
}

bool hl__works_same(const hl_works *a, const hl_works *b)
{
    if (a->n != b->n || a->more != b->more)
        return false;
    for (int i = 0; i < a->n; i++) {
        const hl_work *x = &a->items[i], *y = &b->items[i];
        if (x->adjuster != y->adjuster || x->amount != y->amount || x->no_amount != y->no_amount ||
            x->way != y->way)
            return false;
    }
    return true;
}

/* "(raise 1/4 turn)", "(3/8 turn up)", "(add .015 in)", "(raise)", or nothing. */
static void add_extent(hl_text *out, const hl_adjuster *adjuster, const hl_work *work)
{
    const char *way = work->way == 0 ? "" : work->way > 0 ? adjuster->more : adjuster->less;
    const hl_amount amount = work->amount < 0 ? -work->amount : work->amount;
    const bool amounts = !work->no_amount && amount != 0;
    if (!amounts && !way[0])
        return;
    hl__text_add(out, " (");
    if (!adjuster->verb[0] || !amounts) {
        hl__text_safe(out, way);
        hl__text_add(out, amounts ? " " : "");
    }
    if (amounts && adjuster->n_sizes > 0)
        hl__say_size(out, amount, adjuster->unit);
    else if (amounts)
        hl__say_amount(out, amount, adjuster->unit, 0);
    if (adjuster->verb[0] && amounts) {
        hl__text_char(out, ' ');
        hl__text_safe(out, way);
    }
    hl__text_char(out, ')');
}

void hl__say_works(hl_text *out, const hl_book *book, const hl_works *works)
{
    if (works->n == 0)
        hl__text_add(out, "an adjustment that moves it");
    for (int i = 0; i < works->n; i++) {
        const hl_adjuster *adjuster = &book->adjusters[works->items[i].adjuster];
        const bool last = i == works->n - 1 && !works->more;
        hl__text_add(out, i == 0 ? "work on the " : last ? " and the " : ", the ");
        hl__text_safe(out, adjuster->title);
        add_extent(out, adjuster, &works->items[i]);
    }
    if (works->more)
        hl__text_add(out, " and more");
}
