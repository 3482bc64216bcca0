/* rules.h - what the parts of "hammerline rules" share (layer: cli/commands). */
#ifndef HL_RULES_H
#define HL_RULES_H

#include "hammerline.h"
#include "options.h"
#include "rule_paths.h"

/* Each returns an exit code. */
int rules_list(const request *asked, const bookshelf *shelf);
int rules_show(const request *asked, const bookshelf *shelf);
int rules_check(const request *asked, const bookshelf *shelf);
int rules_diff(const request *asked, const bookshelf *shelf);

#endif
