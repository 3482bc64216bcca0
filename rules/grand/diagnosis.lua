-- Several readings taken together, and what may lie behind them. Nothing here changes a verdict.
-- Causes stand in the order to check: cheap and likely first. Each has the quick test that tells it from the others.
return book {
  id = "diagnosis", api = 1, title = "Diagnosis of a grand",

  -- Weights ------------------------------------------------------------------------------------

  diagnosis { "friction_first", title = "Heavy down, weak up: friction before weight",
    when = "high(downweight) and low(upweight) or high(friction)",
    causes = {
      { "tight hammer centre", test = "Let the raised hammer swing: it stops after fewer swings than its neighbours.",
        todo = "Free the centre, then weigh again." },
      { "key bushing or balance hole binds",
        test = "Lift the key's front a little and let go: it does not fall by itself.",
        todo = "Ease the key, then weigh again." },
      { "dry or worn knuckle", test = "Press slowly through let-off: it drags or grates there, free before.",
        todo = "Clean and brush the leather, then weigh again." },
      { "capstan or spring slot drags", test = "Lift the whippen by hand: the drag is there with the hammer off it.",
        todo = "Polish the capstan, clean the slot, then weigh again." },
    },
    source = "college-2004-friction-first; list-2003-false-line; list-2003-friction" },

  diagnosis { "heavy_not_rough", title = "Heavy, and friction is right: weight or leverage",
    when = "high(downweight) and high(mean_weight) and passes(friction)",
    quiet_by = "friction_first",
    causes = {
      { "damper lifts too early", test = "Weigh with the pedal down and again with it up: up is much heavier.",
        todo = "Set the damper's timing." },
      { "heavy hammer", test = "Weigh the hammer: it is heavier than its neighbours.",
        todo = "Taper or shape it, if tone allows." },
      { "too little lead in the key", test = "Weigh the key's front: it is lighter than its neighbours.",
        todo = "Plan leads from the weights." },
      { "leverage", test = "Hammer, whippen and key weigh as their neighbours do, and it is still heavy.",
        todo = "Compare the hammer leverage; look at knuckle, capstan line and balance punching." },
    },
    source = "list-touchweight; list-2005-damper-timing; college-2007-touch" },

  -- Aftertouch -----------------------------------------------------------------------------------

  diagnosis { "ratio_stands_out", title = "This note's numbers don't fit its neighbours",
    when = "fails(implied_travel_ratio) and abs(implied_travel_ratio - neighbours(implied_travel_ratio)) > 0.15",
    causes = {
      { "a reading is wrong", test = "Read blow, let-off, dip and aftertouch again, same weight on the key.",
        todo = "Do nothing before that." },
      { "key is not level", test = "Lay the straightedge over it and its neighbours.", todo = "Level the key first." },
      { "shank lies on the cushion", test = "Slide paper between shank and cushion: it sticks.",
        todo = "Give the rail its gap." },
      { "jack stands wrong", test = "Look at its back against the knuckle's core.",
        todo = "Set the jack under the knuckle." },
      { "lost motion", test = "Move the key a hair: the hammer does not follow.", todo = "Set the lever height." },
      { "geometry of this note", test = "All of the above is right, and the ratio is still out.",
        todo = "No screw cures it. Report it; compare knuckle, capstan and balance hole with a neighbour." },
    },
    source = "list-2010-travel-link; list-2000-spacer-force; college-2005-dip-floats; list-2009-blow" },

  diagnosis { "aftertouch_short_everywhere", title = "Aftertouch is short on most notes", spread = "wide",
    when = "low(aftertouch)",
    causes = {
      { "blow is long", test = "Measure samples from the strings: over the book's blow.",
        todo = "Raise the hammer line." },
      { "dip is shallow", test = "Set the block on sample keys: too little dip.", todo = "Take front paper out." },
      { "let-off is too close",
        test = "Watch the hammer rise slowly: it turns nearer to the string than the book says.",
        todo = "Set let-off." },
      { "shanks lie on the cushion", test = "Slide paper under the shanks: it sticks.",
        todo = "Give the rail its gap." },
      { "lost motion", test = "Move a key a hair: the hammer does not follow.", todo = "Set jacks and lever height." },
    },
    source = "articles-key-dip" },

  diagnosis { "aftertouch_short", title = "Aftertouch is short on this note",
    when = "low(aftertouch)", quiet_by = "aftertouch_short_everywhere",
    causes = {
      { "key sits low", test = "Lay the straightedge: the key is under the line.",
        todo = "Balance paper under this key." },
      { "hammer hangs low", test = "Look along the line: it is below, or its shank lies on the cushion.",
        todo = "Raise the capstan to the line." },
      { "let-off is too close", test = "Its hammer turns nearer to the string than its neighbours'.",
        todo = "Set let-off." },
      { "jack is slow to clear", test = "Press slowly: the jack is still under the knuckle at the bottom.",
        todo = "Set the jack, then the lever's height." },
      { "dip is shallow", test = "The block says so, and the key is level.", todo = "Take front paper out." },
    },
    source = "articles-key-dip; list-2000-checking; college-2005-aftertouch" },

  diagnosis { "aftertouch_uneven", title = "Aftertouch stands out though dip is even",
    when = "fails(aftertouch) and not low(aftertouch) and not high(aftertouch) and "
      .. "abs(key_dip - neighbours(key_dip)) < 0.15",
    quiet_by = "ratio_stands_out",
    causes = {
      { "key level", test = "Lay the straightedge over its neighbours.", todo = "Level, then read again." },
      { "hammer line", test = "Look along the line, and for a shank on the cushion.",
        todo = "Even the line. That alone may do." },
      { "let-off", test = "Compare where the hammer turns with its neighbours.", todo = "Set let-off." },
      { "jack or lever height", test = "Compare jack and knuckle with its neighbours.",
        todo = "Set the jack, then the lever." },
      { "geometry of this note", test = "All four are right.", todo = "Report it. A front paper hides it, no more." },
    },
    source = "college-2005-aftertouch; list-2000-checking; " ..
      "page-grand-parts: part 19" },

  -- Repetition and checking -----------------------------------------------------------------------

  diagnosis { "no_repetition", title = "Drop is good, repetition is not",
    when = "passes(drop) and fails(repetition)",
    causes = {
      { "spring too weak or too strong", test = "Ease the key from the check: the hammer stays down, or leaps.",
        todo = "One small step at a time, then play." },
      { "lever height keeps the jack out",
        test = "Let the key up slowly: the jack does not slip back under the knuckle.",
        todo = "Set the lever's height." },
      { "caught low, or not at all", test = "Look how far from the string the hammer is held.",
        todo = "Checks first, springs after." },
      { "lever pinning is loose or tight", test = "Move the lever by hand: it rattles, or it drags.",
        todo = "Repin it." },
      { "spring slot is dented", test = "The hammer rises in jerks.", todo = "Clean and polish the slot." },
      { "other centres are tight", test = "Swing the hammer, move the jack: either is slow.", todo = "Free them." },
      { "jack stopped at the window felt", test = "Hold the key down: the jack presses on the felt.",
        todo = "Make room for it." },
    },
    source = "page-grand-parts: parts 8 and 23; list-2000-repetition" },

  diagnosis { "does_not_check", title = "The hammer is caught low, or not at all",
    when = "high(checking)",
    causes = {
      { "too little aftertouch", test = "The key is at the bottom before the check reaches the tail.",
        todo = "Aftertouch first." },
      { "check stands too far away", test = "Drive the hammer down by hand: the jam comes late.",
        todo = "Bend it toward the tail." },
      { "check too low, or leaning wrong",
        test = "At the drop its top is well under the tail, or its face lets the tail slide.",
        todo = "Set height and angle before distance." },
      { "tail too smooth or gouged", test = "Look and feel: polished, or a groove.", todo = "Dress the tail." },
      { "check is twisted, or its wire soft", test = "The face meets the tail on one edge, or gives under the thumb.",
        todo = "Square it; change a soft wire." },
    },
    source = "articles-checking; college-2007-checks; list-1999-checking" },
}
