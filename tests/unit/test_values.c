/* test_values.c - the trade's published figures against the targets of the shipped books.
 *
 * Beside each figure is its source, a key of docs/sources.md; where several are named, the figure is in one
 * of them.  A figure that the book does not follow carries the reason; so does a step without a figure. */
#include "shipped.h"

#include <stdio.h>

typedef struct published {
    const char *book, *step, *note; /* note "": the instrument */
    const char *figure;
    char says; /* '+' the source accepts it, '-' it does not */
    const char *source;
    const char *differs; /* NULL: the book agrees.  Else why it does not */
} published;

#define OTHER_GRAND   RULES_FOLDER "/tests/grand_schools.lua"
#define OTHER_UPRIGHT RULES_FOLDER "/tests/upright_schools.lua"

static const published figures[] = {
    /* ---- grand ---- */
    {"grand", "string_height", "A4", "192 mm", '+', "[list-2004-string-height], one make", NULL},
    {"grand", "string_height", "C8", "188 mm", '+', "[list-2004-string-height], one make", NULL},
    {"grand", "action_spread", "A4", "112 mm", '+', "[articles-weighing] part 6, usual", NULL},
    {"grand", "action_spread", "A4", "109 mm", '+', "[articles-weighing] part 6, seen on old actions", NULL},
    {"grand", "action_spread", "A4", "115 mm", '+', "[articles-weighing] part 6, seen on old actions", NULL},
    {"grand", "hammer_bore", "A4", "48 mm", '+', "[list-2004-string-height], one model", NULL},
    {"grand", "hammer_bore", "A4", "2 in", '+', "[list-2004-string-height], computed for the same", NULL},
    {"grand", "hanging_distance", "A0", "130 mm", '+', "[list-2004-string-height], end hammers", NULL},
    {"grand", "tail_length", "A4", "1 1/16 in", '+', "[list-2003-checks]", NULL},
    {"grand", "tail_arc", "A4", "3 in", '+', "[list-1998-tails]", NULL},
    {"grand", "tail_arc", "A4", "4 in", '+', "[list-1998-tails]", NULL},
    {"grand", "tail_arc", "A4", "2 9/16 in", '+', "[list-2003-tails]", NULL},
    {"grand", "knuckle_distance", "A4", "17 mm", '+', "[list-2001-knuckles]", NULL},
    {"grand", "knuckle_distance", "A4", "16.5 mm", '+', "[list-2001-knuckles]", NULL},
    {"grand", "weighed_capstan_ratio", "A4", "0.52", '+', "[college-2004-leverage]", NULL},
    {"grand", "weighed_capstan_ratio", "A4", "0.588", '+', "[list-1999-capstan-ratio]", NULL},
    {"grand", "centre_friction", "A4", "2 g", '+', "[parts-2023-flanges]", NULL},
    {"grand", "centre_friction", "A4", "5 g", '+', "[parts-2023-flanges]", NULL},
    {"grand", "key_end_gap", "A3", "3.74 mm", '+', "[geometry], the example's key end at half the blow",
     NULL},
    {"grand", "let_off_and_drop", "A4", "1/8 in", '+', "[page-2021-drop]", NULL},
    {"grand", "let_off_and_drop", "A0", "4.8 mm", '-', "arithmetic: 3.2 and 1.6", NULL},
    {"grand", "key_height", "A4", "2.594 in", '+', "[page-rebuilder], one model, keybed to keytop", NULL},
    {"grand", "key_height", "A4", "2 1/2 in", '+', "[page-service], keyframe base to the keytop's underside",
     "another datum: the keytop's thickness lies between"},
    {"grand", "sharp_height", "C#4", "12 mm", '+', "[list-1998-sharp-height], with a dip of .390 in", NULL},
    {"grand", "sharp_height", "C#4", "1/2 in", '+',
     "[list-1998-sharp-height], with a dip of .420 in; the usual ceiling", NULL},
    {"grand", "key_level", "E4", "0 mm", '+', "[list-2010-crown], straight", NULL},
    {OTHER_GRAND, "key_level", "E4", "1/32 in", '+', "[list-2001-crown] [list-2010-crown], crowned", NULL},
    {"grand", "key_level", "E4", "1/32 in", '+', "[list-2001-crown] [list-2010-crown], crowned",
     "school: straight unless chosen"},
    {"grand", "key_level", "E4", ".003 in", '+', "[articles-key-dip], the smallest useful paper", NULL},
    {"grand", "key_dip", "A4", "10.0 mm", '+', "[list-2009-blow] [page-dealer-sharps]", NULL},
    {"grand", "key_dip", "A4", ".390 in", '+', "[list-2010-models] [list-2008-dip]", NULL},
    {"grand", "key_dip", "A4", ".420 in", '+', "[list-2010-models] [list-2008-dip]", NULL},
    {"grand", "key_dip", "A4", "3/8 in", '+',
     "[page-service] [page-regulating], 3/8 to 7/16 in over all makes",
     "school: one maker's window, .390 to .420 in; a shop book widens it"},
    {"grand", "key_dip", "A4", "7/16 in", '+',
     "[page-service] [page-regulating], 3/8 to 7/16 in over all makes",
     "school: one maker's window, .390 to .420 in; a shop book widens it"},
    {"grand", "key_dip", "A4", ".380 in", '+',
     "[college-1998-shallow-dip] [articles-key-dip], sometimes better",
     "school: one maker's window; this is for a note that needs it, and the float gives it some"},
    {"grand", "key_dip", "A4", "10.6 mm", '-',
     "one of [page-service] [page-regulating] [page-dealer-sharps], over 10.5 is too much",
     "school: .420 in of another model must pass, and the sheet does not know the model"},
    {"grand", "sharp_residue", "C#4", "2 mm", '+',
     "[page-service] [page-dealer-sharps] [college-2005-sharp-residue]", NULL},
    {"grand", "sharp_residue", "C#4", ".08 in", '+', "[page-dealer-sharps]", NULL},
    {"grand", "sharp_residue", "C#4", "1.95 mm", '+',
     "[list-2010-models], a nickel; its thickness is from memory", NULL},
    {"grand", "jack_height", "A4", "0.2 mm", '+', "[page-grand-parts], one paper", NULL},
    {"grand", "blow", "A4", "1 3/4 in", '+', "[maker-regulation] [list-1999-aftertouch-share], by model",
     NULL},
    {"grand", "blow", "A4", "1 7/8 in", '+', "[maker-regulation] [page-service] [page-2014-blog], by model",
     NULL},
    {"grand", "blow", "A4", "47 mm", '+', "[page-2014-blog]", NULL},
    {"grand", "blow", "A4", "44 mm", '+', "[list-2009-blow], seen with the dip held at 10 mm", NULL},
    {"grand", "blow", "A4", "49 mm", '+', "[list-2009-blow], seen with the dip held at 10 mm",
     "school: dip floats here, not blow"},
    {"grand", "blow", "A4", "42 mm", '+', "[digest-2002-blow], 1 5/8 in", "an outlier of one page"},
    {"grand", "blow", "A4", "50 mm", '-', "[list-2009-worn-blow], found on a worn action", NULL},
    {"grand", "rest_rail_gap", "A4", "3.3 mm", '+', "[maker-2013-manual], one shank: a little over 1/8 in",
     NULL},
    {"grand", "rest_rail_gap", "A4", "2 mm", '+',
     "[list-2010-models] [page-2014-blog] [forum-2010-grand] [college-2009-rest-rail]", NULL},
    {"grand", "rest_rail_gap", "A4", "5/16 in", '+',
     "[list-2010-models] [page-2014-blog] [forum-2010-grand] [college-2009-rest-rail], at most", NULL},
    {"grand", "let_off", "A0", "1/8 in", '+', "[maker-2013-manual], bass", NULL},
    {"grand", "let_off", "C8", "1/16 in", '+', "[maker-2013-manual], treble", NULL},
    {"grand", "let_off", "A0", "2.5 mm", '+', "[list-let-off-strings], bass", NULL},
    {"grand", "let_off", "C4", "2.0 mm", '+', "[list-let-off-strings], plain wire of the tenor", NULL},
    {"grand", "let_off", "C7", "1.5 mm", '+', "[list-let-off-strings], treble", NULL},
    {"grand", "let_off", "A0", "2 mm", '+', "[forum-french-grand], 2 mm all over", NULL},
    {"grand", "let_off", "C8", "2 mm", '+', "[forum-french-grand], 2 mm all over", NULL},
    {"grand", "let_off", "C8", "1 mm", '+',
     "[list-2001-jack] [list-let-off-strings] [list-2007-let-off] [list-2001-let-off] [page-grand-parts], "
     "fine pianos",
     NULL},
    {"grand", "let_off", "C8", "0.9 mm", '-',
     "[list-2001-jack] [list-let-off-strings] [list-2007-let-off] [list-2001-let-off] [page-grand-parts], "
     "inside 1 mm is unreliable",
     NULL},
    {"grand", "let_off", "A0", "1/16 in", '+', "[page-drop], 1/16 in everywhere",
     "school: wide in the bass, where strings swing far ([maker-2013-manual], [list-let-off-strings])"},
    {"grand", "let_off", "A4", "1 mm", '+', "[list-2001-let-off], for one performance",
     "a setting that does not keep"},
    {"grand", "let_off", "A0", "2.5 mm", '-',
     "[list-2001-jack] [list-let-off-strings] [list-2007-let-off] [list-2001-let-off] [page-grand-parts], "
     "over 2 mm loses control of the softest",
     "school: the bass needs more ([maker-2013-manual], [list-let-off-strings])"},
    {"grand", "let_off", "C7", "3 mm", '-', "[page-far-let-off], found too far", NULL},
    {"grand", "drop", "A4", "1/16 in", '+', "[maker-regulation] [maker-2013-manual] [page-drop], at most",
     NULL},
    {"grand", "drop", "A4", "1.5 mm", '+', "[list-1997-drop], as much as let-off", NULL},
    {"grand", "drop", "A4", "1 mm", '+', "[page-2014-blog]", NULL},
    {"grand", "drop", "A4", "2 mm", '-', "[maker-regulation], never over 1/16 in", NULL},
    {"grand", "drop", "A4", "0.2 mm", '+', "[list-let-off-strings], nearly none on concert work",
     "school: a close drop moves with the weather ([list-2009-concert-drop]); a shop book takes it"},
    {"grand", "aftertouch", "A4", ".030 in", '+', "[list-2009-aftertouch]", NULL},
    {"grand", "aftertouch", "A4", ".040 in", '+', "[forum-2024-aftertouch], a teaching sample", NULL},
    {"grand", "aftertouch", "A4", ".050 in", '+', "[list-1999-aftertouch-share]", NULL},
    {"grand", "aftertouch", "A4", ".060 in", '+', "[list-1999-aftertouch] [forum-2024-aftertouch]", NULL},
    {"grand", "aftertouch", "A4", "1/8 in", '+', "[digest-2002-blow], before the key's bottom",
     "school: counted from the escape here, there it seems from first contact"},
    {OTHER_GRAND, "aftertouch", "A4", "1/8 in", '+', "[digest-2002-blow], from first contact", NULL},
    {"grand", "checking", "A4", "5/8 in", '+', "[page-2021-spring]", NULL},
    {"grand", "checking", "A4", "14 mm", '+', "[list-2003-checks]", NULL},
    {"grand", "checking", "A4", "15 mm", '+', "[list-2003-checks]", NULL},
    {"grand", "checking", "A4", "16 mm", '+', "[list-2003-checks]", NULL},
    {"grand", "damper_fraction", "A3", "0.5", '+',
     "[page-grand-guide] [journal-damper-steps] [list-2005-damper-timing], half way", NULL},
    {"grand", "damper_start", "A3", "23 mm", '+', "arithmetic: half of 46", NULL},
    {"grand", "sostenuto_gap", "", "1/16 in", '+', "[list-1999-sostenuto], above and in front", NULL},
    {"grand", "downweight", "A0", "55 g", '+', "[list-2002-downweight], mid fifties in the bass", NULL},
    {"grand", "downweight", "C8", "45 g", '+',
     "[list-2002-downweight] [articles-weighing], mid forties in the treble", NULL},
    {"grand", "downweight", "A0", "50 g", '+', "[list-2004-weights], the older standard", NULL},
    {"grand", "downweight", "C8", "46 g", '+', "[list-2004-weights], the older standard", NULL},
    {"grand", "downweight", "A4", "47 g", '+',
     "[articles-weighing] [pages-downweight], sample pianos, 47 to 52", NULL},
    {"grand", "downweight", "A4", "52 g", '+',
     "[articles-weighing] [pages-downweight], sample pianos, 47 to 52", NULL},
    {"grand", "downweight", "A4", "50 g", '+', "[pages-downweight], concert, 50 to 55", NULL},
    {"grand", "downweight", "A4", "55 g", '+', "[pages-downweight], concert, 50 to 55", NULL},
    {"grand", "downweight", "A0", "61 g", '-', "[articles-weighing] [pages-downweight], over 60 is heavy",
     NULL},
    {"grand", "downweight", "A4", "45 g", '-', "[articles-weighing] [pages-downweight], about 45 is light",
     "school: light is no fault by itself; mean weight has the low limit"},
    {"grand", "upweight", "A0", "20 g", '+', "[list-2004-weights]", NULL},
    {"grand", "upweight", "C8", "24 g", '+', "[list-2004-weights]", NULL},
    {"grand", "upweight", "C8", "25 g", '+', "[list-2004-weights]", NULL},
    {"grand", "upweight", "A4", "21 g", '+',
     "[list-2004-weights] [articles-weighing] [articles-grand-steps], 21 to 26",
     "school: 20 g in the bass rising to 24 g in the treble ([list-2004-weights])"},
    {"grand", "upweight", "A4", "26 g", '+',
     "[list-2004-weights] [articles-weighing] [articles-grand-steps], 21 to 26", NULL},
    {"grand", "upweight", "A4", "19 g", '-', "[articles-grand-steps], 20 at least for repetition", NULL},
    {"grand", "mean_weight", "A4", "35 g", '+', "[list-2004-weights], the old standard", NULL},
    {"grand", "mean_weight", "A4", "38 g", '+', "[college-weights], concert", NULL},
    {"grand", "mean_weight", "A4", "40 g", '+', "[college-weights], concert", NULL},
    {"grand", "friction", "A0", "15 g", '+', "[list-2004-weights]", NULL},
    {"grand", "friction", "C8", "11 g", '+', "[list-2004-weights]", NULL},
    {"grand", "friction", "A4", "12 g", '+', "[list-2003-friction], the average", NULL},
    {"grand", "friction", "A4", "10 g", '+', "[pages-downweight], 10 to 15", NULL},
    {"grand", "friction", "A4", "15 g", '+', "[pages-downweight], 10 to 15", NULL},
    {"grand", "friction", "C5", "13 g", '+', "[list-2003-friction-c5], expected", NULL},
    {"grand", "friction", "C5", "21 g", '-', "[list-2003-friction-c5], too high", NULL},
    {"grand", "friction", "A4", "17 g", '+', "[articles-grand-steps], wanted",
     "school: 15 to 11 ([list-2004-weights]), about 12 ([list-2003-friction]); that page stands alone"},
    /* ---- upright ---- */
    {"upright", "strike_point", "", "2 mm", '+', "[page-2011-upright], 2.0 to 2.7", NULL},
    {"upright", "strike_point", "", "2.7 mm", '+', "[page-2011-upright], 2.0 to 2.7", NULL},
    {"upright", "sharp_height", "C#4", "12 mm", '+', "[list-1998-upright]", NULL},
    {"upright", "key_dip", "A4", "10.0 mm", '+', "[list-1998-upright] [digest-2010-upright]", NULL},
    {"upright", "key_dip", "A4", ".390 in", '+', "[list-1998-upright]", NULL},
    {"upright", "key_dip", "A4", "10.5 mm", '+', "[digest-2010-upright]", NULL},
    {"upright", "key_dip", "A4", ".410 in", '+', "[list-1998-upright], at most", NULL},
    {"upright", "key_dip", "A4", "11.5 mm", '+', "[list-1998-upright], at most",
     "printed as 11.5 mm or .410 in, which is 10.4 mm: both can't hold"},
    {"upright", "key_dip", "A4", "3/8 in", '+', "[page-regulating], 9.5 to 11",
     "school: 10.0 to 10.5 ([digest-2010-upright], [list-1998-upright]); that page gives outer limits over "
     "all makes"},
    {"upright", "key_dip", "A4", "11 mm", '+', "[page-regulating], 9.5 to 11",
     "school: 10.0 to 10.5 ([digest-2010-upright], [list-1998-upright]); that page gives outer limits over "
     "all makes"},
    {"upright", "blow", "A4", "1 3/4 in", '+', "[digest-2003-uprights], old uprights", NULL},
    {"upright", "blow", "A4", "47 mm", '+', "one of [digest-2003-uprights] [page-study-cards]", NULL},
    {"upright", "blow", "A4", "1 7/8 in", '+', "[page-regulating] [page-study-cards]", NULL},
    {"upright", "blow", "A4", "45 mm", '+', "[digest-2010-upright] [list-1998-upright]", NULL},
    {"upright", "blow", "A4", "48 mm", '+', "[digest-2010-upright] [list-1998-upright]", NULL},
    {"upright", "blow", "A4", "38 mm", '+', "[page-regulating] [page-study-cards], outer limit",
     "an outer limit; [list-1998-upright] and [digest-2010-upright] agree on 45 to 48"},
    {"upright", "blow", "A4", "50 mm", '+', "[page-regulating] [page-study-cards], outer limit",
     "an outer limit; [list-1998-upright] and [digest-2010-upright] agree on 45 to 48"},
    {"upright", "lost_motion", "A4", "0.1 mm", '+', "[list-2006-lost-motion], the least perceptible", NULL},
    {"upright", "lost_motion", "A4", "1/16 in", '+', "[digest-2003-uprights], more before a humid summer",
     "school: 0.1 to 0.6; read at all keys it would leave 10 - 43.5 / 5 - 1.6 mm of aftertouch, less than "
     "none"},
    {"upright", "lost_motion", "A4", "1/8 in", '-', "[handbook-1907], at the key front a considerable fault",
     NULL},
    {"upright", "lost_motion", "A4", "0 mm", '-',
     "[digest-2003-uprights] [list-1998-upright], the jack must be able to return", NULL},
    {"upright", "let_off", "A0", "1/8 in", '+', "[digest-2010-upright], bass", NULL},
    {"upright", "let_off", "A0", "3 mm", '+', "[list-1998-upright], bass", NULL},
    {"upright", "let_off", "C8", "2 mm", '+', "[list-1998-upright], top", NULL},
    {"upright", "let_off", "C8", "1/8 in", '+', "[digest-2010-upright], one figure for all notes",
     "school: wide in the bass, close in the treble ([list-1998-upright])"},
    {"upright", "let_off", "C8", "1 mm", '+', "[page-regulating], outer limit",
     "an outer limit; [list-1998-upright] has 2 at the top"},
    {"upright", "let_off", "A4", "1/4 in", '+', "[page-tips], a compromise",
     "for a worn action, not for a regulated one"},
    {"upright", "jack_clearance", "A4", "1 mm", '+', "[digest-2010-upright]", NULL},
    {"upright", "aftertouch", "A4", ".050 in", '+', "[list-1998-upright], at most", NULL},
    {"upright", "aftertouch", "A4", ".060 in", '-', "[list-1998-upright], at most .050", NULL},
    {"upright", "checking", "A4", "15 mm", '+', "[digest-2010-upright]", NULL},
    {"upright", "checking", "A4", "5/8 in", '+', "[page-2011-upright]", NULL},
    {"upright", "damper_fraction", "A3", "0.5", '+',
     "[digest-2000-dampers] [forum-vertical-dampers], half way", NULL},
    {"upright", "damper_fraction", "A3", "0.67", '+',
     "[list-2001-spoons] [forum-vertical-dampers], for a heavier touch", "school: half way unless chosen"},
    {OTHER_UPRIGHT, "damper_fraction", "A3", "0.67", '+',
     "[list-2001-spoons] [forum-vertical-dampers], for a heavier touch", NULL},
    {"upright", "stop_rail", "", "3 mm", '+', "[list-2004-stop-rail], beyond the pedal's lift", NULL},
    {"upright", "stop_rail", "", "5 mm", '+', "[list-2004-stop-rail], beyond the pedal's lift", NULL},
    {"upright", "soft_pedal_play", "", "1/8 in", '+', "[digest-2003-uprights]", NULL},
    {"upright", "mean_weight", "A4", "34 g", '+', "[list-2000-upright-weights]", NULL},
    {"upright", "mean_weight", "A4", "40 g", '+', "[list-2000-upright-weights]", NULL},
    {"upright", "mean_weight", "A4", "41 g", '-', "[list-2000-upright-weights], look for a geometry fault",
     NULL},
    /* ---- more of the grand, and of the upright ---- */
    {"grand", "sharp_residue", "C#4", "2.03 mm", '+',
     "[list-1998-sharp-height], 1/2 in less .420 in (arithmetic)", NULL},
    {"grand", "sharp_residue", "C#4", "2.09 mm", '+',
     "[list-1998-sharp-height], 12 mm less .390 in (arithmetic)", NULL},
    {"grand", "blow", "A4", "44.5 mm", '+',
     "[maker-regulation] [list-1999-aftertouch-share] [page-service] [page-2014-blog]", NULL},
    {"grand", "blow", "A4", "47.6 mm", '+',
     "[maker-regulation] [list-1999-aftertouch-share] [page-service] [page-2014-blog]", NULL},
    {"grand", "key_dip", "A4", "9.9 mm", '+',
     "[list-2008-dip] [list-1998-sharp-height] [list-2009-blow] [page-dealer-sharps]", NULL},
    {"grand", "key_dip", "A4", "10.7 mm", '+',
     "[list-2008-dip] [list-1998-sharp-height] [list-2009-blow] [page-dealer-sharps]", NULL},
    {"grand", "let_off", "A0", "3.2 mm", '+', "[maker-2013-manual]", NULL},
    {"grand", "let_off", "C8", "1.6 mm", '+', "[maker-2013-manual] [page-drop]", NULL},
    {"grand", "let_off", "C8", "3 mm", '-', "[page-far-let-off]", NULL},
    {"grand", "drop", "A4", "1.6 mm", '+',
     "[maker-regulation] [maker-2013-manual] [page-drop] [page-2021-drop]", NULL},
    {"upright", "let_off", "A0", "3.2 mm", '+', "[digest-2010-upright] [list-1998-upright] [page-regulating]",
     NULL},
    {"upright", "key_dip", "A4", "10 mm", '+', "[digest-2010-upright] [list-1998-upright]", NULL},
};

/* Rows without a figure for a target, and why: the book judges, or has no such step. */
static const struct {
    const char *book, *step, *reason;
} without[] = {
    {"grand", "bedding", "a knock, no figure ([articles-grand-steps])"},
    {"grand", "key_spacing", "23.5 mm a key is a design reference, no tolerance ([page-2006-key-widths])"},
    {"grand", "key_easing",
     "no figure for side play; pins of .144 and .146 in are parts ([digest-2005-key-pins])"},
    {"grand", "key_easing", "lifted a couple of inches it falls back: a trial ([digest-1999-key-holes])"},
    {"grand", "hammer_travel", "no tolerance in mm ([page-grand-guide], [list-1995-travel])"},
    {"grand", "jack_position", "in line by sight ([page-grand-detail], [page-2017-jacks])"},
    {"grand", "check_height",
     "level to 1/16 in below: seen, not measured ([list-2003-checks] [college-2007-checks])"},
    {"grand", "repetition",
     "no seconds found ([page-2021-spring], [digest-1997-springs], [page-grand-guide])"},
    {"grand", "pedal_stop",
     "1/5 in of lift is of 1906 ([handbook-1906]); today lift is compared, not measured "
     "([list-2001-pedal-lift] [college-2010-dampers] [list-2006-pedal-lift])"},
    {"grand", "up_stop",
     "1/16 in beyond full dip is one way to set it; judged by a hop ([college-2010-dampers], "
     "[list-1995-up-stop], [digest-1997-trap-levers])"},
    {"grand", "damper_tray_timing",
     "no mm; all as one ([college-2010-dampers], [college-2007-tray], [maker-damper-class])"},
    {"grand", "lyre_and_pedals", "no free play in mm found ([list-1996-pedals], [list-2006-trapwork])"},
    {"grand", "una_corda",
     "a fraction of the string spacing, seen; a choice of the book ([list-1996-pedals], [maker-shift-guide] "
     "[list-1995-shift-half] [list-shift])"},
    {"grand", "centres",
     "2-5 g uniform or graded by swings: schools differ, so judged ([parts-2023-flanges] "
     "[college-2006-flange-grams])"},
    {"upright", "key_height", "no published figure found"},
    {"upright", "bridle_straps", "taut at half blow, seen ([list-2005-bridle], [digest-1998-bridle])"},
    {"upright", "damper_lift_together", "all as one, seen ([digest-1997-dampers])"},
    {"upright", "soft_pedal", "half way, seen ([handbook-servicing], [list-2005-bridle])"},
    {"upright", "hammer_spring_feel", "no force found ([page-2001-butt-springs], [list-2006-upright-touch])"},
    {"upright", "centres", ".050 and .053 in are pins of 1907, parts and no reading ([handbook-1907])"},
};

static bool accepts(const hl_book *book, const published *p)
{
    const int at = hl_book_find_step(book, p->step);
    hl_err err = {0};
    hl_amount value = 0;
    if (at < 0)
        fail_msg("%s has no step %s", p->book, p->step);
    const hl_step *step = hl_book_step(book, at);
    if (hl__quantity_read(&value, p->figure, step->unit, HL_E_RULE, NULL, &err) != HL_OK)
        fail_msg("%s: %s: %s", p->step, p->figure, err.what);
    const int note = hl_note_parse(hl_book_compass(book), p->note);
    const int pitch = p->note[0] == '\0' ? -1 : hl_note_pitch(hl_book_compass(book), note);
    const hl_target *target = hl__book_target(book, at, pitch);
    assert_true(target->has_low || target->has_high);
    return (!target->has_low || value >= target->low) && (!target->has_high || value <= target->high);
}

static void figures_are_met_or_explained(void **state)
{
    (void)state;
    int bad = 0;
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++) {
        const published *p = &figures[i];
        hl_book *book = open_shipped(p->book);
        const bool agrees = accepts(book, p) == (p->says == '+');
        if (agrees != (p->differs == NULL)) {
            print_error("%s %s at %s, %s: %s\n", p->step, p->figure, p->note, p->source,
                        agrees ? "is met now; take its reason out" : "is not met");
            bad++;
        }
        hl_book_free(book);
    }
    assert_int_equal(bad, 0);
}

static void steps_without_a_figure_are_judged(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof without / sizeof *without; i++) {
        hl_book *book = open_shipped(without[i].book);
        const int at = hl_book_find_step(book, without[i].step);
        if (at < 0 || hl_book_step(book, at)->kind != HL_JUDGED)
            fail_msg("%s: %s: %s", without[i].book, without[i].step, without[i].reason);
        hl_book_free(book);
    }
}

static bool has_figure(const char *book, const char *step)
{
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++)
        if (strcmp(figures[i].book, book) == 0 && strcmp(figures[i].step, step) == 0)
            return true;
    return false;
}

/* A step whose target has a source is held against a figure of it here. */
static void no_sourced_target_was_forgotten(void **state)
{
    (void)state;
    static const char *const books[] = {"grand", "upright"};
    int bad = 0, seen = 0;
    for (size_t b = 0; b < sizeof books / sizeof *books; b++) {
        hl_book *book = open_shipped(books[b]);
        for (int s = 0; s < hl_book_n_steps(book); s++) {
            const hl_step *step = hl_book_step(book, s);
            /* steps that both books share are held against their figures once, by the grand */
            if (step->kind != HL_MEASURED || step->unsourced || has_figure("grand", step->id) ||
                has_figure(books[b], step->id))
                continue;
            print_error("%s: %s names a source, and none of its figures is here\n", books[b], step->id);
            bad++;
        }
        seen += hl_book_n_steps(book);
        hl_book_free(book);
    }
    assert_true(seen > 80);
    assert_int_equal(bad, 0);
}

/* The window of [list-2008-dip] is the book's own: 9.9 to 10.7 mm, 10.0 inside it. */
static void the_dip_window(void **state)
{
    (void)state;
    hl_book *book = open_shipped("grand");
    const hl_target *dip = hl__book_target(book, hl_book_find_step(book, "key_dip"), 57); /* A4 */
    assert_int_equal(dip->low, MM(9.9));
    assert_int_equal(dip->aim, MM(10));
    assert_int_equal(dip->high, MM(10.7));
    hl_book_free(book);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(figures_are_met_or_explained),
        cmocka_unit_test(steps_without_a_figure_are_judged),
        cmocka_unit_test(no_sourced_target_was_forgotten),
        cmocka_unit_test(the_dip_window),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
