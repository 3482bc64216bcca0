/* make_sheets.c - makes invented sheets of every kind, for the comparison of two programs.
 *
 *   make_sheets RULES BOOK COUNT SEED FOLDER/
 *
 * Wide and tidy, with facts, passes, work, readings taken again, withdrawn or skipped, go/no-go, fault words,
 * queries, remarks, times and names.  The same seed makes the same sheets.  Values are drawn about the book's
 * own targets and mean nothing. */
#include "hammerline.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

typedef struct maker {
    const hl_book *book;
    FILE *out;
    uint64_t state;
    int keys, lowest;
    bool tidy, texts;
    char separator, mark;
    const char *line_end;
    int faults; /* in 100 readings */
} maker;

static unsigned draw(maker *m, unsigned below)
{
    uint64_t z = m->state += UINT64_C(0x9e3779b97f4a7c15);
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return (unsigned)((z ^ (z >> 31)) % below);
}

static bool applies(const maker *m, const hl_step *step, int note)
{
    if (step->kind == HL_DERIVED || (step->scope == HL_ONCE) != (note == 0))
        return false;
    const bool sharp = note > 0 && hl_pitch_is_sharp(m->lowest + note - 1);
    return step->scope == HL_NATURALS ? !sharp : step->scope == HL_SHARPS ? sharp : true;
}

static void put_amount(maker *m, hl_amount value, int digits)
{
    hl_amount size = value < 0 ? -value : value, grain = 1;
    for (int i = digits; i < 6; i++)
        grain *= 10;
    size = size / grain * grain;
    fprintf(m->out, "%s%" PRId64, value < 0 && size > 0 ? "-" : "", size / HL_ONE);
    if (digits > 0)
        fprintf(m->out, "%c%0*" PRId64, m->mark, digits, size % HL_ONE / grain);
}

static void put_number(maker *m, const hl_step *step, const hl_target *target)
{
    const hl_amount grain = step->resolution > 0 ? step->resolution : HL_ONE / 10;
    const hl_amount wide = target->has_low && target->has_high ? target->high - target->low : 4 * grain;
    hl_amount value = target->aim + ((hl_amount)draw(m, 201) - 100) * wide / 400;
    if ((int)draw(m, 100) < m->faults)
        value += (draw(m, 2) ? 1 : -1) * (wide / 2 + (hl_amount)draw(m, 6) * grain);
    put_amount(m, value / grain * grain, 1 + (int)draw(m, 2));
    if (draw(m, 12) == 0)
        fprintf(m->out, " %s", hl_unit_name(step->unit));
}

static void put_reading(maker *m, int index, int note)
{
    static const char *const words[] = {"within", "over", "under", "skip"};
    const hl_step *step = hl_book_step(m->book, index);
    if (draw(m, 40) == 0) {
        fputs(step->kind == HL_JUDGED ? "skip" : words[draw(m, 4)], m->out);
        return;
    }
    if (step->kind == HL_JUDGED)
        fputs((int)draw(m, 100) < m->faults && step->n_words > 0
                  ? step->words[draw(m, (unsigned)step->n_words)].word
                  : "ok",
              m->out);
    else
        put_number(m, step, &step->targets[note == 0 ? HL_PITCHES : m->lowest + note - 1]);
}

static void put_note(maker *m, int note)
{
    fputs(note == 0 ? "" : hl_pitch_name(m->lowest + note - 1), m->out);
}

static void put_texts(maker *m)
{
    static const char *const by[] = {"Ann", "Ann", "Ann", "Ben"}, *const methods[] = {"", "", "block",
                                                                                      "strip"};
    if (m->texts)
        fprintf(m->out, "%c%02u:%02u%c%s%c%s%c%s", m->separator, draw(m, 24), draw(m, 60), m->separator,
                by[draw(m, 4)], m->separator, methods[draw(m, 4)], m->separator,
                draw(m, 20) == 0 ? "seen twice" : "");
    fputs(m->line_end, m->out);
}

/* What is done to a note once it was read: work, another reading, a word taken back, a question. */
static void put_event(maker *m, int note)
{
    const char s = m->separator;
    const int step = (int)draw(m, (unsigned)hl_book_n_steps(m->book));
    const hl_adjuster *adjuster =
        hl_book_adjuster(m->book, (int)draw(m, (unsigned)hl_book_n_adjusters(m->book)));
    switch (draw(m, 7)) {
    case 0:
    case 1:
        put_note(m, adjuster->whole ? 0 : note);
        fprintf(m->out, "%c%s%c", s, adjuster->id, s);
        if (adjuster->unit == HL_NO_UNIT || draw(m, 4) == 0) {
            fputs("done", m->out);
        } else {
            fputs(draw(m, 2) ? "+" : "-", m->out);
            put_amount(
                m, (adjuster->finest > 0 ? adjuster->finest : HL_ONE / 8) * (1 + (hl_amount)draw(m, 4)), 3);
            fprintf(m->out, " %s", hl_unit_name(adjuster->unit));
        }
        put_texts(m);
        break;
    case 2:
        put_note(m, note);
        fprintf(m->out, "%cquery%c%s", s, s, draw(m, 3) == 0 ? "closed" : "why so heavy");
        put_texts(m);
        break;
    case 3:
        if (applies(m, hl_book_step(m->book, step), note)) {
            put_note(m, note);
            fprintf(m->out, "%c%s%cvoid", s, hl_book_step(m->book, step)->id, s);
            put_texts(m);
        }
        break;
    default:
        if (applies(m, hl_book_step(m->book, step), note)) {
            put_note(m, note);
            fprintf(m->out, "%c%s%c", s, hl_book_step(m->book, step)->id, s);
            put_reading(m, step, note);
            put_texts(m);
        }
    }
}

static void put_tidy(maker *m)
{
    const char s = m->separator;
    const int n = hl_book_n_steps(m->book);
    const unsigned share = 1 + draw(m, 4);
    fprintf(m->out, "note%cstep%creading", s, s);
    if (m->texts)
        fprintf(m->out, "%ctime%cby%cmethod%cremark", s, s, s, s);
    fputs(m->line_end, m->out);
    for (int note = 0; note <= m->keys; note++)
        for (int step = 0; step < n; step++) {
            if (!applies(m, hl_book_step(m->book, step), note) || draw(m, 4) >= share)
                continue;
            put_note(m, note);
            fprintf(m->out, "%c%s%c", s, hl_book_step(m->book, step)->id, s);
            put_reading(m, step, note);
            put_texts(m);
        }
    for (unsigned pass = draw(m, 3); pass > 0; pass--) {
        if (draw(m, 2)) {
            fprintf(m->out, "%cpass%clater %u", s, s, pass);
            put_texts(m);
        }
        for (unsigned i = draw(m, 80); i > 0; i--)
            put_event(m, 1 + (int)draw(m, (unsigned)m->keys));
    }
}

static void put_wide(maker *m)
{
    const int n = hl_book_n_steps(m->book);
    int steps[128], n_steps = 0;
    const unsigned share = 1 + draw(m, 4);
    for (int i = 0; i < n && n_steps < 128; i++)
        if (hl_book_step(m->book, i)->kind != HL_DERIVED && draw(m, 4) < share)
            steps[n_steps++] = i;
    fputs("note", m->out);
    for (int i = 0; i < n_steps; i++)
        fprintf(m->out, "%c%s", m->separator, hl_book_step(m->book, steps[i])->id);
    fprintf(m->out, "%cremark%s", m->separator, m->line_end);
    for (int note = 0; note <= m->keys; note++) {
        put_note(m, note);
        for (int i = 0; i < n_steps; i++) {
            fputc(m->separator, m->out);
            if (applies(m, hl_book_step(m->book, steps[i]), note) && draw(m, 30) != 0)
                put_reading(m, steps[i], note);
        }
        fprintf(m->out, "%c%s%s", m->separator, draw(m, 30) == 0 ? "to be seen" : "", m->line_end);
    }
}

static void put_facts(maker *m)
{
    static const char *const facts[] = {"# breaks: 20 34",       "# dampers: 1-66",
                                        "# distance_ratio: 5.2", "# samples: 5 20 41 60",
                                        "# date: 2026-11-20",    "## a remark"};
    fprintf(m->out, "# book: %s%s", hl_book_id(m->book), m->line_end);
    for (size_t i = 0; i < sizeof facts / sizeof *facts; i++)
        if (draw(m, 4) == 0 && (m->keys > 80 || i > 1))
            fprintf(m->out, "%s%s", facts[i], m->line_end);
}

static int make_one(const hl_book *book, uint64_t seed, const char *folder, long number)
{
    static const char *const ends[] = {"\n", "\n", "\r\n", "\r"};
    char path[4096];
    maker m = {.book = book, .state = seed, .separator = ',', .mark = '.'};
    const hl_compass compass = hl_book_compass(book);
    m.keys = compass.keys;
    m.lowest = compass.lowest;
    m.tidy = draw(&m, 3) > 0;
    m.texts = draw(&m, 2);
    m.line_end = ends[draw(&m, 4)];
    m.faults = (int)draw(&m, 4) * 4;
    if (draw(&m, 3) == 0) {
        m.separator = draw(&m, 2) ? ';' : '\t';
        m.mark = draw(&m, 2) ? ',' : '.';
    }
    snprintf(path, sizeof path, "%s/sheet-%04ld.csv", folder, number);
    m.out = fopen(path, "wb");
    if (m.out == NULL)
        return 1;
    put_facts(&m);
    if (m.tidy)
        put_tidy(&m);
    else
        put_wide(&m);
    return fclose(m.out);
}

int main(int argc, char **argv)
{
    if (argc != 6) {
        fputs("make_sheets: usage: make_sheets RULES BOOK COUNT SEED FOLDER\n", stderr);
        return 2;
    }
    const char *const folders[] = {argv[1]};
    const hl_shelf shelf = {.folders = folders, .n_folders = 1};
    hl_book *book = NULL;
    hl_err err;
    if (hl_book_open(&book, argv[2], &shelf, &err) != HL_OK) {
        fprintf(stderr, "make_sheets: %s\n", err.what);
        return 1;
    }
    int bad = 0;
    mkdir(argv[5], 0777);
    for (long i = 0; i < strtol(argv[3], NULL, 10); i++)
        bad |= make_one(book, strtoull(argv[4], NULL, 10) + (uint64_t)i * 1000003u, argv[5], i);
    hl_book_free(book);
    return bad;
}
