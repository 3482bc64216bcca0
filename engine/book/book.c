/* book.c - reading a flattened book (layer: book).  The book owns its arena and itself. */
#include "book.h"

#include <stdlib.h>
#include <string.h>

const char *const hl__visits[HL_VISITS] = {"stack off", "action out", "bench", "in the piano",
                                           "under the piano"};

void hl_book_free(hl_book *book)
{
    if (book != NULL) {
        hl__arena_free(&book->arena);
        free(book);
    }
}

const char *hl_book_id(const hl_book *book)
{
    return book->id;
}

const char *hl_book_title(const hl_book *book)
{
    return book->title;
}

hl_compass hl_book_compass(const hl_book *book)
{
    return book->compass;
}

const char *hl_book_hash(const hl_book *book)
{
    return book->hash;
}

int hl_book_n_stages(const hl_book *book)
{
    return book->n_stages;
}

const hl_stage *hl_book_stage(const hl_book *book, int i)
{
    return &book->stages[i];
}

int hl_book_n_steps(const hl_book *book)
{
    return book->n_steps;
}

const hl_step *hl_book_step(const hl_book *book, int i)
{
    return &book->steps[i];
}

const char *hl__book_new_name(const hl_book *book, const char *id)
{
    for (int i = 0; i < book->n_renamed; i++) {
        if (strcmp(book->renamed[i].was, id) == 0) {
            return book->renamed[i].is;
        }
    }
    return NULL;
}

static int find_named(const hl_book *book, const char *id, int (*find)(const hl_book *, const char *))
{
    const int found = find(book, id);
    const char *is = found < 0 ? hl__book_new_name(book, id) : NULL;
    return is != NULL ? find(book, is) : found;
}

static int find_steps(const hl_book *book, const char *id)
{
    for (int i = 0; i < book->n_steps; i++) {
        if (strcmp(book->steps[i].id, id) == 0) {
            return i;
        }
    }
    return -1;
}

int hl_book_find_step(const hl_book *book, const char *id)
{
    return find_named(book, id, find_steps);
}

int hl_book_n_adjusters(const hl_book *book)
{
    return book->n_adjusters;
}

const hl_adjuster *hl_book_adjuster(const hl_book *book, int i)
{
    return &book->adjusters[i];
}

static int find_adjusters(const hl_book *book, const char *id)
{
    for (int i = 0; i < book->n_adjusters; i++) {
        if (strcmp(book->adjusters[i].id, id) == 0) {
            return i;
        }
    }
    return -1;
}

int hl_book_find_adjuster(const hl_book *book, const char *id)
{
    return find_named(book, id, find_adjusters);
}

int hl_book_n_facts(const hl_book *book)
{
    return book->n_facts;
}

const hl_fact *hl_book_fact(const hl_book *book, int i)
{
    return &book->facts[i];
}

int hl_book_n_diagnoses(const hl_book *book)
{
    return book->n_diagnoses;
}

const hl_diagnosis *hl_book_diagnosis(const hl_book *book, int i)
{
    return &book->diagnoses[i];
}

int hl_book_n_choices(const hl_book *book)
{
    return book->n_choices;
}

const hl_chosen *hl_book_choice(const hl_book *book, int i)
{
    return &book->choices[i];
}

int hl_book_n_renamed(const hl_book *book)
{
    return book->n_renamed;
}

const hl_renamed *hl_book_renamed(const hl_book *book, int i)
{
    return &book->renamed[i];
}

int hl_book_n_sources(const hl_book *book)
{
    return book->n_sources;
}

const hl_source *hl_book_source(const hl_book *book, int i)
{
    return &book->sources[i];
}

static int find_facts(const hl_book *book, const char *id)
{
    for (int i = 0; i < book->n_facts; i++) {
        if (strcmp(book->facts[i].id, id) == 0) {
            return i;
        }
    }
    return -1;
}

int hl__book_find_fact(const hl_book *book, const char *id)
{
    return find_named(book, id, find_facts);
}

const hl_target *hl__book_target(const hl_book *book, int step, int pitch)
{
    return &book->steps[step].targets[pitch < 0 ? HL_PITCHES : pitch];
}

bool hl__step_at_pitch(const hl_step *step, int pitch)
{
    if (step->scope == HL_NATURALS) {
        return !hl_pitch_is_sharp(pitch);
    }
    return step->scope != HL_SHARPS || hl_pitch_is_sharp(pitch);
}

bool hl__book_quiet_circle(const hl_book *book, int diagnosis)
{
    int at = diagnosis;
    for (int i = 0; i <= book->n_diagnoses; i++) {
        at = book->diagnoses[at].quiet_by;
        if (at < 0 || at >= book->n_diagnoses) {
            return false;
        }
    }
    return true;
}
