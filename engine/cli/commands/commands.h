/* commands.h - one function a command; each returns an exit code (layer: cli/commands). */
#ifndef HL_COMMANDS_H
#define HL_COMMANDS_H

#include "options.h"

int run_audit(const request *asked);
/* cmd_audit_fleet.c: is it more than one sheet, and the audit of all of them. */
bool is_fleet(const request *asked);
int run_audit_fleet(const request *asked);
int run_plan(const request *asked);
int run_sheet(const request *asked);
int run_report(const request *asked);
int run_rules(const request *asked);
int run_walk(const request *asked);

#endif
