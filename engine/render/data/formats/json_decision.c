/* json_decision.c - rule, sample, gauges, repeats, people and schools, for programs (layer: render/data). */
#include "json_parts.h"

#include "decision.h"

static void add_amount_or_null(hl_json *json, const char *key, bool has, hl_amount value, hl_unit unit)
{
    if (has)
        hl__json_amount(json, key, value, unit);
    else
        hl__json_null(json, key);
}

static void add_count_or_null(hl_json *json, const char *key, bool has, int value)
{
    if (has)
        hl__json_number(json, key, value);
    else
        hl__json_null(json, key);
}

static void add_sample(hl_json *json, const hl_audit *audit)
{
    const hl_sample *sample = audit ? audit->drawn.sample : NULL;
    if (!sample) {
        hl__json_null(json, "sample");
        return;
    }
    hl__json_open(json, "sample", '{', false);
    hl__json_open(json, "notes", '[', true);
    for (int i = 0; i < sample->n; i++)
        hl__json_number(json, NULL, sample->notes[i]);
    hl__json_close(json, ']');
    hl__json_number(json, "population", sample->population);
    hl__json_number(json, "seed", (long)sample->seed);
    hl__json_amount(json, "confidence", sample->confidence, HL_RATIO);
    hl__json_number(json, "open", sample->open);
    hl__json_number(json, "out", sample->out);
    hl__json_number(json, "known_out", sample->known_out);
    add_count_or_null(json, "at_most", sample->concluded, sample->at_most);
    add_count_or_null(json, "asked", sample->has_asked, sample->asked);
    hl__json_close(json, '}');
}

static void add_gauge(hl_json *json, const hl_audit *audit, const hl_gauge *gauge)
{
    static const char *const from[] = {"not known", "book", "sheet", "resolution", "computed"};
    const hl_step *step = &audit->book->steps[gauge->step];
    hl__json_open(json, NULL, '{', true);
    hl__json_string(json, "step", step->id);
    add_amount_or_null(json, "uncertainty", gauge->uncertainty > 0, gauge->uncertainty, step->unit);
    hl__json_string(json, "from", from[gauge->from]);
    add_amount_or_null(json, "tolerance", gauge->has_tolerance, gauge->tolerance, step->unit);
    hl__json_string(json, "unit", hl_unit_name(step->unit));
    hl__json_bool(json, "coarse_resolution", gauge->coarse_resolution);
    hl__json_bool(json, "coarse_gauge", gauge->coarse_gauge);
    hl__json_close(json, '}');
}

static void add_repeat(hl_json *json, const hl_audit *audit, const hl_repeat *repeat)
{
    const hl_step *step = &audit->book->steps[repeat->step];
    hl__json_open(json, NULL, '{', true);
    hl__json_string(json, "step", step->id);
    hl__json_string(json, "method", repeat->method);
    hl__json_number(json, "places", repeat->places);
    hl__json_number(json, "freedom", repeat->freedom);
    hl__json_amount(json, "deviation", repeat->deviation, step->unit);
    hl__json_string(json, "unit", hl_unit_name(step->unit));
    hl__json_bool(json, "coarse", repeat->coarse);
    hl__json_bool(json, "worse", repeat->worse);
    hl__json_close(json, '}');
}

static void add_reading(hl_json *json, const char *key, const hl_step *step, hl_amount value, int word)
{
    if (step->kind == HL_JUDGED)
        hl__json_string(json, key, word < 0 ? "ok" : step->words[word].word);
    else
        hl__json_amount(json, key, value, step->unit);
}

static void add_apart(hl_json *json, const hl_audit *audit, const hl_step *step, const hl_apart *apart)
{
    const int note = apart->note;
    hl__json_open(json, NULL, '{', true);
    add_count_or_null(json, "note", note > 0, note);
    hl__json_string(json, "name",
                    note > 0 ? hl_pitch_name(hl_note_pitch(audit->sheet->compass, note)) : NULL);
    add_reading(json, "first", step, apart->first, apart->first_word);
    add_reading(json, "second", step, apart->second, apart->second_word);
    hl__json_close(json, '}');
}

static void add_people(hl_json *json, const hl_audit *audit, const hl_people *people)
{
    const hl_step *step = &audit->book->steps[people->step];
    const bool measured = step->kind != HL_JUDGED;
    hl__json_open(json, NULL, '{', false);
    hl__json_string(json, "step", step->id);
    hl__json_string(json, "first", people->first);
    hl__json_string(json, "second", people->second);
    hl__json_number(json, "notes", people->notes);
    add_amount_or_null(json, "bias", measured, people->bias, step->unit);
    add_amount_or_null(json, "allowed", measured, people->allowed, step->unit);
    hl__json_string(json, "unit", measured ? hl_unit_name(step->unit) : NULL);
    hl__json_open(json, "apart", '[', people->n_apart == 0);
    for (int i = 0; i < people->n_apart; i++)
        add_apart(json, audit, step, &people->apart[i]);
    hl__json_close(json, ']');
    hl__json_close(json, '}');
}

void hl__json_decision(hl_json *json, const hl_audit *audit)
{
    const size_t n_gauges = audit ? audit->gauges.n_gauges : 0,
                 n_repeats = audit ? audit->gauges.n_repeats : 0;
    const size_t n_people = audit ? audit->n_people : 0;
    hl__json_string(json, "rule", audit ? hl__rule_sentence(audit->options.rule) : NULL);
    add_sample(json, audit);
    hl__json_open(json, "gauges", '[', n_gauges == 0);
    for (size_t i = 0; i < n_gauges; i++)
        add_gauge(json, audit, &audit->gauges.gauges[i]);
    hl__json_close(json, ']');
    hl__json_open(json, "repeats", '[', n_repeats == 0);
    for (size_t i = 0; i < n_repeats; i++)
        add_repeat(json, audit, &audit->gauges.repeats[i]);
    hl__json_close(json, ']');
    hl__json_open(json, "people", '[', n_people == 0);
    for (size_t i = 0; i < n_people; i++)
        add_people(json, audit, &audit->people[i]);
    hl__json_close(json, ']');
}

void hl__json_choices(hl_json *json, const hl_book *book)
{
    hl__json_open(json, "choices", '{', true);
    for (int i = 0; i < book->n_choices; i++) {
        const hl_chosen *choice = &book->choices[i];
        if (choice->uses > 0)
            hl__json_string(json, choice->id, choice->options[choice->option].name);
    }
    hl__json_close(json, '}');
}
