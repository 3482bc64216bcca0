/* build_target.c - targets for every pitch from C0 to B8, and the instrument's (layer: host/build).
 *
 * A sheet may state a wider compass than its book: all pitches have a target. */
#include "build.h"

#include "errors.h"
#include "words.h"

#define MIDDLE_C 48

typedef struct plan {
    hl_builder *b;
    const hl_step *step;
    hl_unit unit;
} plan;

static hl_code fail_order(const plan *p, const hl_entry *entry, const char *todo)
{
    return hl__build_fail(p->b, entry->origin, todo, "the target of '%s' is upside down", p->step->id);
}

static hl_code read_simple(const plan *p, const hl_entry *entry, hl_target *out)
{
    hl_amount v[3] = {0, 0, 0};
    bool given[3];
    for (int i = 0; i < 3; i++) {
        given[i] = entry->values[i].kind != HL_IS_NOTHING;
        hl_code code = given[i] ? hl__build_amount(p->b, &entry->values[i], p->unit, &v[i]) : HL_OK;
        if (code != HL_OK)
            return code;
    }
    switch (entry->word) {
    case HL_W_RANGE:
        *out = (hl_target){v[0], given[2] ? v[2] : v[0] + (v[1] - v[0]) / 2, v[1], true, true};
        break;
    case HL_W_AT_LEAST:
        *out = (hl_target){v[0], given[1] ? v[1] : v[0], 0, true, false};
        break;
    case HL_W_AT_MOST:
        *out = (hl_target){0, given[1] ? v[1] : v[0], v[0], false, true};
        break;
    default:
        *out = (hl_target){v[0] - v[1], v[0], v[0] + v[1], true, true};
        break;
    }
    if (out->has_low && out->has_high && out->low > out->high)
        return fail_order(p, entry, "the low end comes first");
    if ((out->has_low && out->aim < out->low) || (out->has_high && out->aim > out->high))
        return fail_order(p, entry, "the aim lies between low and high");
    return HL_OK;
}

static hl_amount blend(hl_amount a, hl_amount b, int part, int whole, hl_amount grain)
{
    double value = (double)a + (double)(b - a) * part / whole;
    hl_amount nearest = (hl_amount)(value < 0 ? value - 0.5 : value + 0.5);
    return grain > 0 ? hl__round_to(nearest, grain) : nearest;
}

static hl_code read_graded(const plan *p, const hl_entry *entry, int pitch, hl_target *out)
{
    int i = 0;
    while (i < entry->n_anchors - 2 && pitch > entry->anchors[i + 1].from)
        i++;
    const hl_anchor *low = &entry->anchors[i], *high = &entry->anchors[i + 1];
    hl_target a, b;
    hl_code code = read_simple(p, low->target, &a);
    if (code == HL_OK)
        code = read_simple(p, high->target, &b);
    if (code != HL_OK)
        return code;
    int whole = high->from - low->from;
    int part = pitch <= low->from ? 0 : pitch >= high->from ? whole : pitch - low->from;
    /* Rounded, so that the limit that is printed is the limit that is tested. */
    hl_amount grain = p->step->resolution;
    *out = (hl_target){blend(a.low, b.low, part, whole, grain), blend(a.aim, b.aim, part, whole, grain),
                       blend(a.high, b.high, part, whole, grain), a.has_low, a.has_high};
    return HL_OK;
}

/* A function is asked for the book's compass.  On a piano with more keys the outermost note of the same
 * colour speaks for those beyond, as the outermost zones do. */
static int find_asked(const plan *p, int pitch)
{
    const hl_compass compass = p->b->book->compass;
    const int lowest = compass.lowest, highest = compass.lowest + compass.keys - 1;
    int at = pitch < lowest ? lowest : pitch > highest ? highest : pitch;
    const int way = pitch < lowest ? 1 : -1;
    while (at >= lowest && at <= highest && hl_pitch_is_sharp(at) != hl_pitch_is_sharp(pitch))
        at += way;
    return at >= lowest && at <= highest ? at : -1;
}

static hl_code read_at(const plan *p, const hl_entry *entry, int pitch, hl_target *out)
{
    if (entry->word == HL_W_BY_COLOUR)
        entry = entry->anchors[hl_pitch_is_sharp(pitch) ? COLOUR_SHARPS : COLOUR_NATURALS].target;
    if (hl__is_simple_target(entry))
        return read_simple(p, entry, out);
    if (entry->word == HL_W_GRADED)
        return read_graded(p, entry, pitch, out);
    if (entry->word == HL_W_FUNCTION) {
        const int asked = find_asked(p, pitch);
        if (asked >= 0 && entry->anchors[asked].target != NULL)
            return read_simple(p, entry->anchors[asked].target, out);
        if (asked != pitch || !hl__step_at_pitch(p->step, pitch))
            return HL_OK;
        return hl__build_fail(p->b, entry->origin,
                              "return range, at_least, at_most or about for every note of the book's compass",
                              "the target function of '%s' gave nothing for %s", p->step->id,
                              hl_pitch_name(pitch));
    }
    int i = 0; /* the outermost zones reach past their ends */
    while (i < entry->n_anchors - 1 && pitch > entry->anchors[i].to)
        i++;
    return read_simple(p, entry->anchors[i].target, out);
}

/* Asks each function that the target holds, for the notes that it is for.  `colour`: -1 both, else 0
 * naturals, 1 sharps. */
static hl_code ask_functions(hl_builder *b, const hl_step *step, hl_entry *entry, int colour)
{
    if (entry->word == HL_W_BY_COLOUR) {
        hl_code code = HL_OK;
        for (int i = 0; code == HL_OK && i < entry->n_anchors; i++)
            code = ask_functions(b, step, entry->anchors[i].target, i == COLOUR_SHARPS);
        return code;
    }
    if (entry->word != HL_W_FUNCTION)
        return HL_OK;
    bool wanted[HL_PITCHES] = {false};
    for (int note = 1; note <= b->book->compass.keys; note++) {
        const int pitch = hl_note_pitch(b->book->compass, note);
        wanted[pitch] =
            hl__step_at_pitch(step, pitch) && (colour < 0 || hl_pitch_is_sharp(pitch) == (colour == 1));
    }
    return hl__target_ask(&b->draft->loader->box, entry, wanted, b->err);
}

/* Zones and anchors may stand outside a short compass, since books for fewer keys build on books for
 * 88; but not outside both. */
static hl_code check_notes(hl_builder *b, const hl_entry *entry, const hl_step *step)
{
    const int low = b->book->compass.lowest, high = low + b->book->compass.keys - 1;
    for (int i = 0; entry->word == HL_W_BY_COLOUR && i < entry->n_anchors; i++) {
        hl_code code = check_notes(b, entry->anchors[i].target, step);
        if (code != HL_OK)
            return code;
    }
    if (entry->word != HL_W_ZONES && entry->word != HL_W_GRADED)
        return HL_OK;
    for (int i = 0; i < entry->n_anchors; i++) {
        const hl_anchor *anchor = &entry->anchors[i];
        const bool below = anchor->from < low && anchor->from < HL_A0;
        const bool above = anchor->to > high && anchor->to > HL_A0 + 87;
        if (below || above)
            return hl__build_fail(b, entry->origin, "name a note inside it, or widen the book's compass",
                                  "the target of '%s' names %s, and the book's compass is %s-%s", step->id,
                                  hl_pitch_name(below ? anchor->from : anchor->to), hl_pitch_name(low),
                                  hl_pitch_name(high));
    }
    return HL_OK;
}

static hl_code build_target(hl_builder *b, const hl_value *value, hl_step *step)
{
    hl_target *targets = hl__arena_array(&b->book->arena, HL_PITCHES + 1, sizeof *targets);
    if (targets == NULL)
        return hl__no_memory(b->err);
    step->targets = targets;
    if (value->kind == HL_IS_NOTHING)
        return HL_OK;
    if (step->scope == HL_ONCE && !hl__is_simple_target(value->entry))
        return hl__build_fail(
            b, value->entry->origin, "give range, at_least, at_most or about",
            "step '%s' is read once for the instrument and cannot have a target that goes by note", step->id);
    hl_code checked = check_notes(b, value->entry, step);
    if (checked == HL_OK)
        checked = ask_functions(b, step, value->entry, -1);
    /* Those of the schools that were not chosen must work as well. */
    for (int i = 1; value->by != NULL && checked == HL_OK && i < value->by->n_values; i++)
        if (value->by->values[i].entry != value->entry)
            checked = ask_functions(b, step, value->by->values[i].entry, -1);
    if (checked != HL_OK)
        return checked;
    plan p = {b, step, value->unit};
    for (int pitch = 0; pitch < HL_PITCHES; pitch++) {
        hl_code code = read_at(&p, value->entry, pitch, &targets[pitch]);
        if (code != HL_OK)
            return code;
    }
    targets[HL_PITCHES] = targets[MIDDLE_C];
    return HL_OK;
}

hl_code hl__build_targets(hl_builder *b)
{
    for (int i = 0; i < b->book->n_steps; i++) {
        const hl_value *target = &b->draft->parts[HL_P_STEP].items[i]->values[STEP_TARGET];
        hl_code code = hl__build_keep(b, build_target(b, target, &b->book->steps[i]));
        if (code != HL_OK)
            return code;
    }
    return HL_OK;
}
