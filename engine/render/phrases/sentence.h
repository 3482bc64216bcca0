/* sentence.h - amounts, targets and corrections in a technician's words (layer: render/phrases).
 *
 * The pieces from which printers make sentences.  A number keeps its unit on the same line
 * (HL_GLUE), and every word from a book passes through hl__text_safe. */
#ifndef HL_SENTENCE_H
#define HL_SENTENCE_H

#include "hammerline/print.h"
#include "text.h"

/* "46.8 mm", "3/8 turn", "1 7/16 turns", "2 steps": as finely as a person reads; an amount that is
 * finer keeps its digits, but mm, grams and degrees no more than two after the point. */
void hl__say_amount(hl_text *out, hl_amount value, hl_unit unit, hl_amount resolution);
/* "46.8-47.1 mm", "-0.2 to 0.1 mm", or one amount when both are the same. */
void hl__say_span(hl_text *out, hl_amount low, hl_amount high, hl_unit unit, hl_amount resolution);
/* The same with every digit, where a rounded one would lie on the other side of a limit. */
void hl__say_exact_span(hl_text *out, hl_amount low, hl_amount high, hl_unit unit);
/* "9.9-10.1 mm", "at most 1.6 mm", "at least 20 g", "any value". */
void hl__say_target(hl_text *out, const hl_target *target, hl_unit unit, hl_amount resolution);
/* The first word of a sentence with a capital, as far as it is ASCII. */
void hl__say_capital(hl_text *out, const char *sentence);
/* What a book says beside a cure, as a sentence of its own with a blank after it; nothing when it is empty.
 */
void hl__say_instruction(hl_text *out, const char *todo);
/* A piece from the box as the trade names it: ".005 in"; one that is no whole thousandth of an inch
 * goes by mm. */
void hl__say_size(hl_text *out, hl_amount size, hl_unit unit);
/* "raise the capstan about 1/4 turn", "turn the drop screw 3/8 turn up", "add a .005 in balance
 * punching (0.13 mm)", "add .015 + .005 in of front punching (0.51 mm)", "bend the repetition spring
 * a step stronger", "bend the backcheck toward". */
void hl__say_act(hl_text *out, const hl_adjuster *adjuster, const hl_correction *correction);
/* Does the act say "about"?  An amount that rests on assumptions does; pieces are what they are. */
bool hl__is_about(const hl_adjuster *adjuster, const hl_correction *correction);
/* The same without its amount, for the other ways out: "raise the capstan". */
void hl__say_way(hl_text *out, const hl_adjuster *adjuster, bool more);
/* "1 reading is", "37 readings are". */
void hl__say_count(hl_text *out, int n, const char *one, const char *many);

#endif
