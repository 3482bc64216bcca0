/* audit_fleet.h - the audit of more than one sheet (layer: cli/commands). */
#ifndef HL_AUDIT_FLEET_H
#define HL_AUDIT_FLEET_H

#include "options.h"

/* Is it more than one sheet: several, a folder, or a file that holds many? */
bool is_fleet(const request *asked);
int run_audit_fleet(const request *asked, const hl_format *format);

/* The exit code that one sheet of a fleet asks for. */
int fleet_code(const hl_fleet_sheet *sheet);

#endif
