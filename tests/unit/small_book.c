/* small_book.c - see small_book.h. */
#include "small_book.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MM(x)    ((hl_amount)((x)*1e6 + ((x) < 0 ? -0.5 : 0.5)))
#define COUNT(a) ((int)(sizeof(a) / sizeof *(a)))

static const hl_origin HERE = {"small_book", 1};

typedef struct fact_row {
    const char *id, *unit;
    double naturals, sharps;
} fact_row;

static const fact_row FACTS[] = {
    {"travel_ratio", "ratio", 5, 5},    {"hammer_leverage", "ratio", 5.5, 5.5},
    {"capstan_ratio", "ratio", .5, .5}, {"capstan_pitch", "mm/turn", 1, 1},
    {"key_front", "mm", 250, 200},      {"key_pin", "mm", 230, 180},
    {"key_back", "mm", 220, 220},       {"key_capstan", "mm", 125, 125},
    {"let_off_pitch", "mm/turn", 2, 2}, {"drop_pitch", "mm/turn", 2, 2},
    {"lost_motion", "mm", 0, 0},
};

typedef struct step_row {
    const char *id;
    hl_unit unit;
    hl_kind kind;
    hl_need need;
    hl_scope scope;
    double low, aim, high; /* low > high: no limits */
    double resolution, even;
    const char *formula;
    const char *fix[3];
} step_row;

#define NONE 1, 0, -1
static const step_row STEPS[] = {
    {"key_height", HL_MM, HL_MEASURED, HL_NEED_SAMPLES, HL_NATURALS, 63, 63.5, 64, .1, 0, NULL, {0}},
    {"key_level",
     HL_MM,
     HL_MEASURED,
     HL_NEED_EVERY,
     HL_EVERY_NOTE,
     -.1,
     0,
     .1,
     .05,
     0,
     NULL,
     {"balance_punching"}},
    {"sharp_height",
     HL_MM,
     HL_MEASURED,
     HL_NEED_EVERY,
     HL_SHARPS,
     11.5,
     12,
     12.5,
     .1,
     0,
     NULL,
     {"balance_punching"}},
    {"key_dip",
     HL_MM,
     HL_MEASURED,
     HL_NEED_EVERY,
     HL_EVERY_NOTE,
     9.8,
     10,
     10.2,
     .05,
     .15,
     NULL,
     {"front_punching"}},
    {"blow", HL_MM, HL_MEASURED, HL_NEED_EVERY, HL_EVERY_NOTE, 45, 46, 47, .1, .75, NULL, {"capstan"}},
    {"let_off",
     HL_MM,
     HL_MEASURED,
     HL_NEED_EVERY,
     HL_EVERY_NOTE,
     1.2,
     1.6,
     2.0,
     .1,
     0,
     NULL,
     {"let_off_button"}},
    {"drop", HL_MM, HL_MEASURED, HL_NEED_EVERY, HL_EVERY_NOTE, .8, 1.4, 1.6, .1, 0, NULL, {"drop_screw"}},
    {"aftertouch",
     HL_MM,
     HL_MEASURED,
     HL_NEED_EVERY,
     HL_EVERY_NOTE,
     .8,
     1.1,
     1.4,
     .05,
     .3,
     "key_dip - (blow - let_off) / travel_ratio - lost_motion",
     {"front_punching", "capstan"}},
    {"checking", HL_MM, HL_MEASURED, HL_NEED_EVERY, HL_EVERY_NOTE, 14, 15, 16, .5, 0, NULL, {"backcheck"}},
    {"repetition", HL_NO_UNIT, HL_JUDGED, HL_NEED_EVERY, HL_EVERY_NOTE, NONE, 0, 0, NULL, {0}},
    {"damper_key", HL_NO_UNIT, HL_JUDGED, HL_NEED_EVERY, HL_DAMPED, NONE, 0, 0, NULL, {0}},
    {"una_corda", HL_NO_UNIT, HL_JUDGED, HL_NEED_EVERY, HL_ONCE, NONE, 0, 0, NULL, {0}},
    {"downweight", HL_G, HL_MEASURED, HL_NEED_EVERY, HL_EVERY_NOTE, 45, 50, 55, 1, 0, NULL, {"key_lead"}},
    {"upweight", HL_G, HL_MEASURED, HL_NEED_EVERY, HL_EVERY_NOTE, 20, 25, 32, 1, 0, NULL, {"key_lead"}},
    {"mean_weight",
     HL_G,
     HL_DERIVED,
     HL_NEED_OPTIONAL,
     HL_EVERY_NOTE,
     34,
     38,
     42,
     .5,
     0,
     "(downweight + upweight) / 2",
     {"key_lead"}},
    {"friction",
     HL_G,
     HL_DERIVED,
     HL_NEED_OPTIONAL,
     HL_EVERY_NOTE,
     8,
     12,
     16,
     .5,
     0,
     "(downweight - upweight) / 2",
     {0}},
};

typedef struct word_row {
    const char *step, *word, *means, *adjuster;
    bool more;
} word_row;

static const word_row WORDS[] = {
    {"repetition", "weak", "the hammer does not rise", "repetition_spring", true},
    {"repetition", "strong", "the hammer jumps", "repetition_spring", false},
    {"damper_key", "early", "the damper lifts before half blow", NULL, false},
    {"damper_key", "late", "the damper lifts after half blow", NULL, false},
    {"una_corda", "off", "the shift misses its place", NULL, false},
};

typedef struct adjuster_row {
    const char *id, *title, *verb, *more, *less;
    hl_unit unit;
    double finest;
    bool sized;
} adjuster_row;

static const adjuster_row ADJUSTERS[] = {
    {"front_punching", "front punching", "", "add", "remove", HL_MM, 0, true},
    {"balance_punching", "balance punching", "", "add", "remove", HL_MM, 0, true},
    {"capstan", "capstan", "", "raise", "lower", HL_TURN, 1.0 / 8, false},
    {"let_off_button", "let-off button", "", "lower", "raise", HL_TURN, 1.0 / 8, false},
    {"drop_screw", "drop screw", "", "lower", "raise", HL_TURN, 1.0 / 8, false},
    {"backcheck", "backcheck", "bend", "toward the tail", "away from the tail", HL_MM, .5, false},
    {"repetition_spring", "repetition spring", "make", "stronger", "weaker", HL_NOTCH, 1, false},
    {"key_lead", "key lead", "", "add", "remove", HL_G, 1, false},
};

typedef struct move_row {
    const char *adjuster, *step, *by; /* by: a formula, or "strong", "slight" */
} move_row;

static const move_row MOVES[] = {
    {"front_punching", "key_dip", "-key_front / key_pin"},
    {"front_punching", "checking", "slight"},
    {"balance_punching", "key_level", "1 + key_front / key_back"},
    {"balance_punching", "sharp_height", "1 + key_front / key_back"},
    {"balance_punching", "key_dip", "1 + key_front / key_back"},
    {"balance_punching", "blow", "-(1 - key_capstan / key_back) * travel_ratio / capstan_ratio"},
    {"capstan", "blow", "-capstan_pitch * travel_ratio / capstan_ratio"},
    {"let_off_button", "let_off", "let_off_pitch"},
    {"let_off_button", "drop", "-let_off_pitch"},
    {"drop_screw", "drop", "drop_pitch"},
    {"backcheck", "checking", "-1"},
    {"repetition_spring", "repetition", "strong"},
    {"repetition_spring", "drop", "slight"},
    {"key_lead", "downweight", "-1"},
    {"key_lead", "upweight", "-1"},
};

static void need(bool ok, const char *what)
{
    if (!ok) {
        fprintf(stderr, "small_book: %s\n", what);
        exit(2);
    }
}

static void *take(hl_book *book, size_t n, size_t size)
{
    void *memory = hl__arena_array(&book->arena, n, size);
    need(memory != NULL, "no memory");
    return memory;
}

static bool look_up(void *context, const char *name, hl_var *out, const char **nearest)
{
    hl_book *book = context;
    *nearest = NULL;
    for (int i = 0; i < book->n_steps; i++)
        if (strcmp(book->steps[i].id, name) == 0) {
            *out = (hl_var){HL_VAR_STEP, i, HL_ASPECT_VALUE, hl__unit_dims(book->steps[i].unit)};
            return true;
        }
    for (int i = 0; i < book->n_facts; i++)
        if (strcmp(book->facts[i].id, name) == 0) {
            *out = (hl_var){HL_VAR_FACT, i, HL_ASPECT_VALUE, {0, 0, 0, 0, 0}};
            need(hl__dims_parse(&out->dims, book->facts[i].unit), "a fact's unit");
            return true;
        }
    return false;
}

const hl_formula *small_formula(hl_book *book, const char *text)
{
    hl_formula *formula = NULL;
    hl_err err;
    if (hl__formula_parse(&formula, &book->arena, text, look_up, book, &err) != HL_OK)
        need(false, err.what);
    return formula;
}

int small_step(const hl_book *book, const char *id)
{
    for (int i = 0; i < book->n_steps; i++)
        if (strcmp(book->steps[i].id, id) == 0)
            return i;
    need(false, id);
    return -1;
}

int small_adjuster(const hl_book *book, const char *id)
{
    for (int i = 0; i < book->n_adjusters; i++)
        if (strcmp(book->adjusters[i].id, id) == 0)
            return i;
    need(false, id);
    return -1;
}

static void fill_facts(hl_book *book)
{
    book->n_facts = COUNT(FACTS);
    book->facts = take(book, COUNT(FACTS), sizeof *book->facts);
    for (int i = 0; i < COUNT(FACTS); i++) {
        const fact_row *row = &FACTS[i];
        book->facts[i] = (hl_fact){.id = row->id,
                                   .title = row->id,
                                   .unit = row->unit,
                                   .has_value = true,
                                   .value = {row->naturals, row->sharps},
                                   .assumed = true,
                                   .source = "",
                                   .why = "",
                                   .origin = HERE};
    }
}

static void fill_words(hl_book *book, hl_step *step)
{
    hl_word *words = take(book, COUNT(WORDS), sizeof *words);
    for (int i = 0; i < COUNT(WORDS); i++) {
        if (strcmp(WORDS[i].step, step->id) != 0)
            continue;
        hl_word *word = &words[step->n_words++];
        *word = (hl_word){.word = WORDS[i].word, .means = WORDS[i].means, .todo = "look at it"};
        if (WORDS[i].adjuster == NULL)
            continue;
        hl_remedy *remedy = take(book, 1, sizeof *remedy);
        *remedy = (hl_remedy){small_adjuster(book, WORDS[i].adjuster), WORDS[i].more};
        word->remedies = remedy;
        word->n_remedies = 1;
        word->todo = "";
    }
    step->words = words;
}

static void fill_targets(hl_book *book, hl_step *step, const step_row *row)
{
    hl_target *targets = take(book, HL_PITCHES + 1, sizeof *targets);
    bool given = row->low <= row->high;
    for (int i = 0; i <= HL_PITCHES; i++)
        if (given)
            targets[i] = (hl_target){MM(row->low), MM(row->aim), MM(row->high), true, true};
    step->targets = targets;
}

static void fill_steps(hl_book *book)
{
    book->steps = take(book, COUNT(STEPS), sizeof *book->steps);
    book->n_steps = COUNT(STEPS);
    for (int i = 0; i < COUNT(STEPS); i++) {
        const step_row *row = &STEPS[i];
        hl_step *step = &book->steps[i];
        *step = (hl_step){.id = row->id,
                          .title = row->id,
                          .unit = row->unit,
                          .kind = row->kind,
                          .need = row->need,
                          .scope = row->scope,
                          .resolution = MM(row->resolution),
                          .even = MM(row->even),
                          .breaks = true,
                          .pair = -1,
                          .ask = "Read it.",
                          .why = "It matters.",
                          .source = "",
                          .plain = row->unit == HL_MM  ? "How far keys and hammers go"
                                   : row->unit == HL_G ? "How heavy the keys feel"
                                                       : "Repeating, dampers and pedals",
                          .caution = "",
                          .method = "",
                          .gauge_name = "",
                          .low_todo = "",
                          .high_todo = "",
                          .origin = HERE};
        fill_targets(book, step, row);
        if (row->kind == HL_JUDGED)
            fill_words(book, step);
        int *fixes = take(book, COUNT(row->fix), sizeof *fixes);
        for (int k = 0; k < COUNT(row->fix) && row->fix[k] != NULL; k++)
            fixes[step->n_fixes++] = small_adjuster(book, row->fix[k]);
        step->fixes = fixes;
    }
    for (int i = 0; i < COUNT(STEPS); i++)
        if (STEPS[i].formula != NULL)
            book->steps[i].formula = small_formula(book, STEPS[i].formula);
    small_order(book);
}

void small_order(hl_book *book)
{
    int circle[2];
    if (hl__book_find_order(book, circle) != HL_ORDERED)
        abort();
}

static void fill_adjusters(hl_book *book)
{
    static const double BOX[] = {.0762, .127, .254, .381, .508, .762, 1.143, 1.524};
    hl_amount *sizes = take(book, COUNT(BOX), sizeof *sizes);
    for (int i = 0; i < COUNT(BOX); i++)
        sizes[i] = MM(BOX[i]);
    book->n_adjusters = COUNT(ADJUSTERS);
    book->adjusters = take(book, COUNT(ADJUSTERS), sizeof *book->adjusters);
    for (int i = 0; i < COUNT(ADJUSTERS); i++) {
        const adjuster_row *row = &ADJUSTERS[i];
        book->adjusters[i] = (hl_adjuster){.id = row->id,
                                           .title = row->title,
                                           .verb = row->verb,
                                           .more = row->more,
                                           .less = row->less,
                                           .unit = row->unit,
                                           .finest = MM(row->finest),
                                           .visit = "bench",
                                           .sizes = row->sized ? sizes : NULL,
                                           .n_sizes = row->sized ? COUNT(BOX) : 0,
                                           .assumed = true,
                                           .source = "",
                                           .why = "",
                                           .origin = HERE};
    }
}

static void fill_moves(hl_book *book)
{
    for (int i = 0; i < book->n_adjusters; i++) {
        hl_adjuster *adjuster = &book->adjusters[i];
        hl_move *moves = take(book, COUNT(MOVES), sizeof *moves);
        for (int k = 0; k < COUNT(MOVES); k++) {
            const move_row *row = &MOVES[k];
            if (strcmp(row->adjuster, adjuster->id) != 0)
                continue;
            hl_move *move = &moves[adjuster->n_moves++];
            *move = (hl_move){.step = small_step(book, row->step), .assumed = true, .origin = HERE};
            if (strcmp(row->by, "strong") == 0)
                move->kind = HL_MOVE_STRONG;
            else if (strcmp(row->by, "slight") == 0)
                move->kind = HL_MOVE_SLIGHT;
            else
                move->formula = small_formula(book, row->by);
        }
        adjuster->moves = moves;
    }
}

hl_book *small_book(void)
{
    hl_book *book = calloc(1, sizeof *book);
    need(book != NULL, "no memory");
    book->id = "small";
    book->title = "A small book for tests";
    book->about = "";
    book->compass = (hl_compass){HL_A0, 88};
    book->floats.step = -1;
    book->stale_share = HL_ONE / 4;
    book->stages = take(book, 1, sizeof *book->stages);
    book->stages[0] = (hl_stage){"set", "Set", "", HERE};
    book->n_stages = 1;
    fill_facts(book);
    fill_adjusters(book);
    fill_steps(book);
    fill_moves(book);
    return book;
}

void small_book_free(hl_book *book)
{
    hl_book_free(book);
}
