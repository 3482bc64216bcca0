/* test_rows.c - the same sheet read and judged in every way must come to the same: usual rows in place and
 * each row cell by cell; with a head shared by many and with one of its own; in every dialect that
 * spreadsheets write.  Sheets are made, and spoilt, at random (always the same random).  Values are drawn
 * about the books' own targets and mean nothing. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "findings.h"
#include "rows.h"
#include "shared_head.h"
#include "sheet_parts.h"
#include "text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static uint64_t state;

static unsigned draw(unsigned below)
{
    uint64_t z = state += UINT64_C(0x9e3779b97f4a7c15);
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return (unsigned)((z ^ (z >> 31)) % below);
}

/* ---- made sheets ---------------------------------------------------------------------------- */

typedef struct made {
    const hl_book *book;
    hl_text text;
    int steps[128], n_steps;
    int keys, lowest;
    int spread, faults; /* how far readings lie apart, and how many in 1000 are out */
    bool tidy, inches;
} made;

static void add_amount(hl_text *text, hl_amount value, int digits)
{
    hl_amount size = value < 0 ? -value : value, grain = 1;
    for (int i = digits; i < 6; i++)
        grain *= 10;
    size = size / grain * grain;
    hl__text_printf(text, "%s%lld", value < 0 ? "-" : "", (long long)(size / HL_ONE));
    if (digits > 0)
        hl__text_printf(text, ".%0*lld", digits, (long long)(size % HL_ONE / grain));
}

static void add_number(made *m, const hl_step *step, const hl_target *target)
{
    hl_amount grain = step->resolution > 0 ? step->resolution : HL_ONE / 10;
    hl_amount wide = target->has_low && target->has_high ? target->high - target->low : 4 * grain;
    hl_amount value = target->aim + ((hl_amount)draw(201) - 100) * wide * m->spread / 20000;
    if ((int)draw(1000) < m->faults)
        value += (draw(2) ? 1 : -1) * (wide + (hl_amount)draw(60) * grain);
    value = value / grain * grain;
    if (m->inches && step->unit == HL_MM)
        value = value * 10 / 254;
    add_amount(&m->text, value, m->inches ? 4 : (int)draw(4));
}

static void add_reading(made *m, int step, int note)
{
    const hl_step *s = &m->book->steps[step];
    const int pitch = note == 0 ? HL_PITCHES : m->lowest + note - 1;
    const bool fits =
        s->scope == HL_ONCE ? note == 0 : note > 0 && hl__step_at_pitch(s, pitch) && s->kind != HL_DERIVED;
    if (!fits || draw(50) == 0)
        return;
    if (s->kind == HL_JUDGED)
        hl__text_add(&m->text, (int)draw(1000) < m->faults && s->n_words > 0
                                   ? s->words[draw((unsigned)s->n_words)].word
                                   : "ok");
    else
        add_number(m, s, &s->targets[pitch]);
}

static void add_facts(made *m)
{
    static const char *const facts[] = {
        "# piano: hall 7\n",     "# breaks: 20 34\n",       "# dampers: 1-66\n",
        "# travel_ratio: 5.2\n", "# samples: 5 20 41 60\n", "# date: 2026-11-20\n",
        "## a remark\n",         "# key_dip: odd\n",        "# gauge key_dip: 0.2\n"};
    hl__text_printf(&m->text, "# book: %s\n", m->book->id);
    for (size_t i = 0; i < sizeof facts / sizeof *facts; i++)
        if (draw(6) == 0 && (m->lowest == HL_A0 || i != 2))
            hl__text_add(&m->text, facts[i]);
    if (m->keys == 61)
        hl__text_add(&m->text, "# compass: C2-C7\n");
}

static void add_wide(made *m)
{
    hl__text_add(&m->text, "note");
    for (int i = 0; i < m->n_steps; i++) {
        const hl_step *s = &m->book->steps[m->steps[i]];
        hl__text_printf(&m->text, ",%s%s", s->id, m->inches && s->unit == HL_MM ? " [in]" : "");
    }
    hl__text_char(&m->text, '\n');
    for (int note = 0; note <= m->keys; note++) {
        hl__text_add(&m->text, note == 0 ? "" : hl_pitch_name(m->lowest + note - 1));
        for (int i = 0; i < m->n_steps; i++) {
            hl__text_char(&m->text, ',');
            add_reading(m, m->steps[i], note);
        }
        hl__text_char(&m->text, '\n');
    }
}

static void add_tidy(made *m)
{
    hl__text_add(&m->text, draw(2) ? "note,step,reading\n" : "note,step,reading,by,remark\n");
    const bool more = m->text.data[m->text.size - 2] == 'k';
    for (int note = 0; note <= m->keys; note++)
        for (int i = 0; i < m->n_steps; i++) {
            const size_t start = m->text.size;
            hl__text_printf(&m->text, "%s,%s,", note == 0 ? "" : hl_pitch_name(m->lowest + note - 1),
                            m->book->steps[m->steps[i]].id);
            const size_t bare = m->text.size;
            add_reading(m, m->steps[i], note);
            if (m->text.size == bare)
                m->text.size = start;
            else
                hl__text_add(&m->text, more ? ",Kim,\n" : "\n");
        }
}

static void make(made *m, const hl_book *book)
{
    const hl_compass whole = hl_book_compass(book);
    const bool small = draw(8) == 0;
    *m = (made){.book = book, .keys = small ? 61 : whole.keys, .lowest = small ? 24 : whole.lowest};
    m->tidy = draw(2);
    m->inches = !m->tidy && draw(8) == 0;
    m->spread = (int)draw(3) * 50;
    m->faults = (int)draw(3) * 15;
    const unsigned share = draw(3) + 1;
    for (int i = 0; i < book->n_steps && m->n_steps < 100; i++)
        if (book->steps[i].kind != HL_DERIVED && draw(4) < share)
            m->steps[m->n_steps++] = i;
    add_facts(m);
    if (m->tidy)
        add_tidy(m);
    else
        add_wide(m);
    m->text.data[m->text.size] = '\0';
}

/* A few bytes changed, taken out, put in; a line twice. */
static void spoil(hl_text *text)
{
    static const char odd[] = "\"\r,;.-09xok \t#:\n'\xC3";
    for (unsigned n = draw(3) + 1; n > 0 && text->size > 10; n--) {
        const size_t at = draw((unsigned)text->size - 1);
        switch (draw(4)) {
        case 0:
            text->data[at] = odd[draw(sizeof odd - 1)];
            break;
        case 1:
            memmove(text->data + at, text->data + at + 1, text->size - at - 1);
            text->size--;
            break;
        case 2:
            text->data[at] = (char)('0' + (int)draw(10));
            break;
        default: {
            const char *line = text->data + at;
            const size_t size = strcspn(line, "\n") + 1;
            char *copy = strdup(line);
            hl__text_add_n(text, copy, size <= strlen(copy) ? size : strlen(copy));
            free(copy);
        }
        }
        text->data[text->size] = '\0';
    }
}

/* ---- in place, and cell by cell --------------------------------------------------------------- */

/* NULL when it can't be opened; `usual`: as it is read always. */
static hl_sheet *read_sheet(const hl_book *book, const char *text, size_t size, bool usual)
{
    hl_sheet *sheet = NULL;
    hl_err err = {0};
    bool none = true;
    size_t used = 0;
    if (hl_sheet_open_text(&sheet, "made.csv", text, size, &err) != HL_OK)
        return NULL;
    assert_int_equal(hl__sheet_read_head(sheet, book, &none, &err), HL_OK);
    sheet->form->usual = sheet->form->usual && usual;
    if (!none)
        assert_int_equal(hl__sheet_rows(sheet, sheet->bytes + sheet->rows_at, sheet->bytes + sheet->size,
                                        NULL, sheet->rows_line, &used, &err),
                         HL_OK);
    hl__sheet_close_errors(sheet, &err);
    assert_true(hl__sheet_expand(sheet));
    sheet->complete = true;
    return sheet;
}

static void compare_texts(const hl_sheet *a, uint32_t x, const hl_sheet *b, uint32_t y)
{
    assert_string_equal(hl__text_at(a, x), hl__text_at(b, y));
}

static void compare_events(const hl_sheet *a, const hl_sheet *b)
{
    assert_int_equal(a->n_events, b->n_events);
    for (size_t i = 0; i < a->n_events; i++) {
        const hl_event *x = &a->events[i], *y = &b->events[i];
        assert_int_equal(x->kind, y->kind);
        assert_int_equal(x->step, y->step);
        assert_int_equal(x->note, y->note);
        assert_int_equal(x->amount, y->amount);
        assert_int_equal(x->word, y->word);
        assert_int_equal(x->line, y->line);
        assert_int_equal(x->pass, y->pass);
        assert_int_equal(x->before, y->before);
        assert_int_equal(x->withdrawn, y->withdrawn);
        compare_texts(a, x->time, b, y->time);
        compare_texts(a, x->by, b, y->by);
        compare_texts(a, x->method, b, y->method);
        compare_texts(a, x->remark, b, y->remark);
    }
}

static void compare_places(const hl_sheet *a, const hl_sheet *b)
{
    for (int step = 0; step < a->book->n_steps; step++) {
        for (int note = 0; note <= a->compass.keys; note++) {
            const int place = hl__place(step, note);
            assert_int_equal(a->places.states[place], b->places.states[place]);
            assert_int_equal(hl__sheet_latest(a, step, note), hl__sheet_latest(b, step, note));
            if (hl__sheet_latest(a, step, note) >= 0)
                assert_int_equal(a->places.values[place], b->places.values[place]);
        }
    }
}

static void compare_errors(const hl_sheet *a, const hl_sheet *b)
{
    assert_int_equal(a->n_errors, b->n_errors);
    for (size_t i = 0; i < a->n_errors; i++) {
        assert_int_equal(a->errors[i].line, b->errors[i].line);
        assert_int_equal(a->errors[i].column, b->errors[i].column);
        assert_string_equal(a->errors[i].what, b->errors[i].what);
        assert_string_equal(a->errors[i].todo, b->errors[i].todo);
    }
}

static void compare_readers(const hl_book *book, const char *text, size_t size)
{
    hl_sheet *a = read_sheet(book, text, size, true), *b = read_sheet(book, text, size, false);
    assert_int_equal(a == NULL, b == NULL);
    if (a == NULL)
        return;
    compare_errors(a, b);
    compare_events(a, b);
    compare_places(a, b);
    hl_sheet_free(a);
    hl_sheet_free(b);
}

/* ---- by a shared head, and by one of its own ---------------------------------------------------- */

typedef struct bench {
    hl_fleet fleet;
    hl_fleet_options options;
    hl_shelf shelf;
    hl_fleet_worker worker;
    const hl_book *book;
    int n_shared, n_own, n_parts;
} bench;

/* The adjuster of each failing reading's first correction, counted as a fleet does. */
static void count_cures(const hl_audit *audit, int *cures)
{
    for (size_t i = 0; i < audit->findings.n; i++)
        if (audit->findings.items[i].n_corrections > 0)
            cures[audit->findings.items[i].corrections[0].adjuster]++;
}

static void compare_counts(const hl_audit *audit, const hl_fleet_result *result)
{
    int cures[256] = {0};
    for (int i = 0; i < audit->book->n_steps; i++)
        assert_memory_equal(audit->tallies[i].count, result->counts[i], sizeof result->counts[i]);
    assert_memory_equal(audit->total.count, result->total, sizeof result->total);
    assert_int_equal(audit->ready, result->ready);
    count_cures(audit, cures);
    assert_memory_equal(cures, result->cures, (size_t)audit->book->n_adjusters * sizeof *cures);
    assert_true(result->judged);
    assert_int_equal(result->code, HL_OK);
}

static void compare_with(bench *b, hl_sheet *sheet, const hl_fleet_node *node)
{
    hl_audit *audit = NULL;
    hl_err err = {0};
    assert_int_equal(hl_sheet_read(sheet, b->book, &err), HL_OK); /* bad rows need a head of their own */
    assert_int_equal(hl_audit_run(&audit, sheet, b->book, NULL, &err), HL_OK);
    assert_int_equal(node->n, 1);
    assert_string_equal(node->results[0].title, sheet->title);
    compare_counts(audit, &node->results[0]);
    hl_audit_free(audit);
    hl_sheet_free(sheet);
}

static void free_results(hl_fleet_node *node)
{
    for (size_t i = 0; i < node->n; i++)
        hl__fleet_free_result(&node->results[i]);
    free(node->results);
}

static char *spare_bytes(const char *text, size_t size)
{
    char *bytes = calloc(size + HL_FLEET_SPARE, 1);
    assert_non_null(bytes);
    memcpy(bytes, text, size);
    return bytes;
}

static void compare(bench *b, const char *text, size_t size)
{
    hl_fleet_node node = {0};
    char *bytes = spare_bytes(text, size);
    const hl_fleet_sheet_text sheet_text = {.path = "made.csv", .part = {.rows = bytes, .rows_size = size}};
    size_t used = 0;
    const bool taken = hl__shared_judge(&b->worker, &node, &sheet_text, &used);
    b->n_shared += taken;
    b->n_own += !taken;
    if (taken) {
        hl_sheet *sheet = NULL;
        hl_err err = {0};
        assert_int_equal(hl_sheet_open_text(&sheet, "made.csv", text, size, &err), HL_OK);
        compare_with(b, sheet, &node);
    }
    free_results(&node);
    free(bytes);
}

/* The same sheet in a file of many: "hall" before each row, and another sheet behind it. */
static void make_many(hl_text *out, size_t *top, const hl_text *text)
{
    bool below = false;
    for (size_t at = 0; at < text->size;) {
        const char *line = text->data + at;
        const char *stop = memchr(line, '\n', text->size - at);
        const size_t size = stop ? (size_t)(stop - line) + 1 : text->size - at;
        const bool fact = !below && (line[0] == '#' || line[0] == '\n');
        hl__text_add(out, fact ? "" : below ? "hall," : "sheet,");
        hl__text_add_n(out, line, size);
        at += size;
        if (!fact && !below) {
            below = true;
            *top = out->size;
        }
    }
    hl__text_add(out, "other hall,A0,9,9\n");
}

static void compare_part(bench *b, const hl_text *whole)
{
    hl_text text = {0};
    size_t top = 0, used = 0;
    make_many(&text, &top, whole);
    char *bytes = spare_bytes(text.data, text.size);
    hl_fleet_node node = {0};
    const hl_fleet_sheet_text sheet_text = {
        "made.csv", {bytes, bytes + top, top, text.size - top, "hall", 7}, bytes + top};
    if (top > 0 && hl__shared_judge(&b->worker, &node, &sheet_text, &used)) {
        const hl_many many = {.separator = ',', .column = 0};
        hl_part_text part = sheet_text.part;
        hl_part_name name;
        hl_sheet *sheet = NULL;
        hl_err err = {0};
        assert_int_equal(used, hl__many_run(&name, &many, bytes + top, bytes + text.size));
        assert_string_equal(name.text, "hall");
        part.rows_size = used;
        assert_int_equal(hl__sheet_open_part(&sheet, "made.csv", &part, &err), HL_OK);
        compare_with(b, sheet, &node);
        b->n_parts++;
    }
    free_results(&node);
    hl__text_free(&text);
    free(bytes);
}

/* ---- dialects ------------------------------------------------------------------------------------- */

typedef struct dialect {
    const char *name, *line_end;
    char separator, mark;
    bool bom, quoted, padded;
} dialect;

static const dialect DIALECTS[] = {
    {"crlf", "\r\n", ',', '.', false, false, false},       {"cr", "\r", ',', '.', false, false, false},
    {"semicolon", "\n", ';', ',', false, false, false},    {"tab", "\r\n", '\t', ',', true, false, false},
    {"bom", "\n", ',', '.', true, false, false},           {"quoted", "\n", ',', '.', false, true, false},
    {"quoted comma", "\r\n", ',', ',', true, true, false}, {"padded", "\n", ';', '.', false, false, true},
};

static void add_cell(hl_text *out, const dialect *of, const char *cell, size_t size)
{
    const bool quoted = of->quoted && size > 0;
    hl__text_add(out, quoted ? "\"" : "");
    for (size_t i = 0; i < size; i++)
        hl__text_char(out, cell[i] == '.' ? of->mark : cell[i]);
    hl__text_add(out, quoted ? "\"" : "");
}

static void write_dialect(hl_text *out, const dialect *of, const hl_text *plain)
{
    hl__text_add(out, of->bom ? "\xEF\xBB\xBF" : "");
    for (const char *line = plain->data; *line; line += strcspn(line, "\n") + 1) {
        const size_t size = strcspn(line, "\n");
        const bool fact = line[0] == '#';
        for (size_t at = 0; at <= size;) {
            const size_t cell = fact ? size - at : strcspn(line + at, ",\n");
            if (fact)
                hl__text_add_n(out, line + at, cell); /* facts keep their points: their mark is their own */
            else
                add_cell(out, of, line + at, cell);
            at += cell + 1;
            if (at <= size)
                hl__text_char(out, of->separator);
        }
        hl__text_add(out, of->padded && !fact ? ";;" : "");
        hl__text_add(out, of->line_end);
    }
}

static void compare_dialects(const hl_book *book, const hl_text *plain)
{
    hl_sheet *a = read_sheet(book, plain->data, plain->size, true);
    assert_non_null(a);
    for (size_t i = 0; i < sizeof DIALECTS / sizeof *DIALECTS; i++) {
        hl_text text = {0};
        write_dialect(&text, &DIALECTS[i], plain);
        compare_readers(book, text.data, text.size);
        hl_sheet *b = read_sheet(book, text.data, text.size, true);
        assert_non_null(b);
        /* a comma before three digits can be read in two ways where commas part the cells */
        if (b->n_errors != a->n_errors && !(DIALECTS[i].mark == ',' && DIALECTS[i].separator == ','))
            fail_msg("%s: %zu bad rows, not %zu: %s", DIALECTS[i].name, b->n_errors, a->n_errors,
                     b->n_errors > 0 ? b->errors[0].what : "");
        if (b->n_errors == a->n_errors)
            compare_places(a, b);
        hl_sheet_free(b);
        hl__text_free(&text);
    }
    hl_sheet_free(a);
}

/* ---- all of it ------------------------------------------------------------------------------------ */

static void run(bench *b, const char *id, int rounds)
{
    static const char *const folders[] = {RULES_FOLDER, RULES_FOLDER "/shops"};
    hl_err err;
    *b = (bench){.shelf = {.folders = folders, .n_folders = 2}};
    b->options.shelf = &b->shelf;
    b->fleet.options = &b->options;
    pthread_mutex_init(&b->fleet.book_lock, NULL);
    b->worker = (hl_fleet_worker){.fleet = &b->fleet, .shared = hl__shared_new()};
    b->book = hl__fleet_book(&b->fleet, id, &err);
    assert_non_null(b->book);
    for (int i = 0; i < rounds; i++) {
        made m;
        make(&m, b->book);
        compare_readers(b->book, m.text.data, m.text.size);
        compare_dialects(b->book, &m.text);
        compare(b, m.text.data, m.text.size);
        compare_part(b, &m.text);
        const int shared = b->n_shared, own = b->n_own;
        for (int k = 0; k < 3; k++) {
            spoil(&m.text);
            compare_readers(b->book, m.text.data, m.text.size);
            compare(b, m.text.data, m.text.size);
            compare_part(b, &m.text);
        }
        b->n_shared = shared; /* what was spoilt may go either way */
        b->n_own = own;
        hl__text_free(&m.text);
    }
    for (size_t i = 0; i < b->fleet.n_books; i++) {
        hl_book_free(b->fleet.books[i].book);
        free(b->fleet.books[i].name);
    }
    free(b->fleet.books);
    hl__shared_free(b->worker.shared);
    pthread_mutex_destroy(&b->fleet.book_lock);
}

static void test_books(void **unused)
{
    static const char *const books[] = {"grand", "upright", "concert_hire", "historical_85", "home_upright"};
    (void)unused;
    for (size_t i = 0; i < sizeof books / sizeof *books; i++) {
        bench b;
        state = 7 + i;
        run(&b, books[i], 40);
        assert_true(2 * b.n_shared > b.n_own); /* else this test compares nothing */
        assert_true(b.n_parts > b.n_shared / 2);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_books)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
