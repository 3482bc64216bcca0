/* sheet_scope.c - asking a sheet: what counts, where a step applies, what a fact is worth
 * (layer: sheet). */
#include "form.h"
#include "sheet.h"

int hl__event_column(const hl_sheet *sheet, const hl_event *event)
{
    const hl_form *form = sheet->form;
    return 1 + (form->tidy ? form->at[HL_HEAD_READING] : form->column_of[event->step]);
}

bool hl__sheet_applies(const hl_sheet *sheet, const hl_step *step, int note)
{
    if (note < 1 || note > sheet->compass.keys) {
        return note == 0 && step->scope == HL_ONCE;
    }
    if (step->scope == HL_ONCE) {
        return false;
    }
    if (step->scope == HL_DAMPED && sheet->undamped != NULL && sheet->undamped[note]) {
        return false;
    }
    return hl__step_at_pitch(step, hl_note_pitch(sheet->compass, note));
}

int hl__sheet_section(const hl_sheet *sheet, int note)
{
    int section = 0;
    while (section < sheet->n_breaks && sheet->breaks[section] < note) {
        section++;
    }
    return section;
}

static bool is_natural(const hl_sheet *sheet, int note)
{
    return !hl_pitch_is_sharp(hl_note_pitch(sheet->compass, note));
}

/* The first natural at or after `note`, going by `way`; 0 when the keyboard ends before. */
static int find_natural(const hl_sheet *sheet, int note, int way)
{
    while (note >= 1 && note <= sheet->compass.keys && !is_natural(sheet, note)) {
        note += way;
    }
    return note >= 1 && note <= sheet->compass.keys ? note : 0;
}

bool hl__sheet_is_sample(const hl_sheet *sheet, int note)
{
    if (sheet->samples != NULL) {
        for (int i = 0; i < sheet->n_samples; i++) {
            if (sheet->samples[i] == note) {
                return true;
            }
        }
        return false;
    }
    if (note < 1 || note > sheet->compass.keys || !is_natural(sheet, note)) {
        return false;
    }
    int section = hl__sheet_section(sheet, note);
    int first = section == 0 ? 1 : sheet->breaks[section - 1] + 1;
    int last = section == sheet->n_breaks ? sheet->compass.keys : sheet->breaks[section];
    if (note == find_natural(sheet, first, 1) || note == find_natural(sheet, last, -1)) {
        return true;
    }
    return sheet->n_breaks == 0 && note == find_natural(sheet, (sheet->compass.keys + 1) / 2, -1);
}

double hl__sheet_value(const hl_sheet *sheet, int fact, int note, bool *assumed)
{
    bool sharp = note > 0 && hl_pitch_is_sharp(hl_note_pitch(sheet->compass, note));
    if (sheet->assumed[fact][sharp]) {
        *assumed = true;
    }
    return sheet->values[fact][sharp];
}
