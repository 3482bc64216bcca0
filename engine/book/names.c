/* names.c - the names of units and verdicts, one place for all printers (layer: book). */
#include "hammerline.h"

const char *hl_unit_name(hl_unit unit)
{
    switch (unit) {
    case HL_MM:
        return "mm";
    case HL_IN:
        return "in";
    case HL_G:
        return "g";
    case HL_TURN:
        return "turn";
    case HL_DEGREE:
        return "deg";
    case HL_RATIO:
        return "ratio";
    case HL_NOTCH:
        return "step";
    case HL_NO_UNIT:
        break;
    }
    return "";
}

const char *hl_verdict_name(hl_verdict verdict)
{
    switch (verdict) {
    case HL_PASS:
        return "pass";
    case HL_FAIL:
        return "fail";
    case HL_DOUBTFUL:
        return "doubtful";
    case HL_STALE:
        return "stale";
    case HL_MISSING:
        return "missing";
    case HL_NOT_APPLICABLE:
        break;
    }
    return "not applicable";
}
