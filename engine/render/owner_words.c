/* owner_words.c - the steps in words that need no trade (layer: render).
 *
 * An owner does not ask about let-off and drop; both are "how the hammer lets go of the key".  So
 * steps that answer one question share one line.  A shop's own step has none, and says so. */
#include "report.h"

#include <string.h>

enum { KEYS, DEPTH, HAMMERS, LETTING_GO, REPEATING, DAMPERS, PEDALS, WEIGHT, PLAYING, SCREWS, AREAS };

static const char *const names[AREAS] = {
    [KEYS] = "Keys: level, evenly spaced, free to move",
    [DEPTH] = "How deep the keys go down, and what is felt at the bottom",
    [HAMMERS] = "How the hammers travel and meet their strings",
    [LETTING_GO] = "How a hammer lets go of its key, and is caught after it has struck",
    [REPEATING] = "How quickly a note can be repeated",
    [DAMPERS] = "Dampers, which end a note",
    [PEDALS] = "Pedals",
    [WEIGHT] = "How heavy the keys feel",
    [PLAYING] = "Playing each note softly and firmly",
    [SCREWS] = "Screws, and the fit in the piano",
};

typedef struct place {
    const char *step;
    int area;
} place;

static const place places[] = {
    {"action_bolts", SCREWS},
    {"aftertouch", DEPTH},
    {"balance_weight", WEIGHT},
    {"bedding", SCREWS},
    {"blow", HAMMERS},
    {"bridle_straps", REPEATING},
    {"centres", WEIGHT},
    {"check_alignment", LETTING_GO},
    {"check_angle", LETTING_GO},
    {"check_height", LETTING_GO},
    {"checking", LETTING_GO},
    {"damper_fraction", DAMPERS},
    {"damper_key_timing", DAMPERS},
    {"damper_lift_together", DAMPERS},
    {"damper_pedal_play", PEDALS},
    {"damper_seating", DAMPERS},
    {"damper_start", DAMPERS},
    {"damper_tray_timing", DAMPERS},
    {"downweight", WEIGHT},
    {"drop", LETTING_GO},
    {"friction", WEIGHT},
    {"hammer_spacing", HAMMERS},
    {"hammer_spring_feel", REPEATING},
    {"hammer_squaring", HAMMERS},
    {"hammer_travel", HAMMERS},
    {"hammer_weight", WEIGHT},
    {"hammers_on_rail", HAMMERS},
    {"implied_ratio", DEPTH},
    {"implied_weight_ratio", WEIGHT},
    {"jack_clearance", LETTING_GO},
    {"jack_height", LETTING_GO},
    {"jack_position", LETTING_GO},
    {"jack_return", REPEATING},
    {"key_dip", DEPTH},
    {"key_easing", KEYS},
    {"key_front_weight", WEIGHT},
    {"key_height", KEYS},
    {"key_level", KEYS},
    {"key_spacing", KEYS},
    {"key_stop_rail", KEYS},
    {"let_off", LETTING_GO},
    {"lost_motion", DEPTH},
    {"lyre_and_pedals", PEDALS},
    {"muffler_rail", PEDALS},
    {"pedal_stop", PEDALS},
    {"play_hard", PLAYING},
    {"play_soft", PLAYING},
    {"repetition", REPEATING},
    {"rest_rail_gap", HAMMERS},
    {"screws", SCREWS},
    {"sharp_height", KEYS},
    {"sharp_residue", KEYS},
    {"slide_in", SCREWS},
    {"soft_pedal", PEDALS},
    {"soft_pedal_play", PEDALS},
    {"sostenuto", PEDALS},
    {"sostenuto_gap", PEDALS},
    {"spring_rough", REPEATING},
    {"stop_rail", DAMPERS},
    {"strike_line", HAMMERS},
    {"strike_point", HAMMERS},
    {"string_mating", HAMMERS},
    {"una_corda", PEDALS},
    {"underlevers_level", DAMPERS},
    {"up_stop", DAMPERS},
    {"upweight", WEIGHT},
    {"whippen_alignment", LETTING_GO},
    {"whippen_weight", WEIGHT},
};

int hl__plain_area(const char *step_id)
{
    for (size_t i = 0; i < sizeof places / sizeof *places; i++)
        if (strcmp(places[i].step, step_id) == 0)
            return places[i].area;
    return -1;
}

const char *hl__plain_name(int area)
{
    if (area < 0)
        return "Other checks of this workshop";
    return area < AREAS ? names[area] : NULL;
}
