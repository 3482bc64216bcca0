/* json_parts.h - parts that several objects share (layer: render/data). */
#ifndef HL_JSON_PARTS_H
#define HL_JSON_PARTS_H

#include "audit.h"
#include "json.h"

/* The word for a finding's `why`; step is NULL for a query. */
const char *hl__json_why(const hl_finding *finding, const hl_step *step);
/* "choices": the schools that the book follows, by name. */
void hl__json_choices(hl_json *json, const hl_book *book);
/* `rule`, `sample`, `gauges`, `repeats`, `people`; audit NULL: of a sheet that was not judged. */
void hl__json_decision(hl_json *json, const hl_audit *audit);

#endif
