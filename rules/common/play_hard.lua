-- The hard play test: some faults only show after a hard blow.
return step {
  id = "play_hard", title = "Play firmly and repeat", stage = "finish", kind = "judged", scope = "every",
  plain = "Playing each note softly and firmly",
  ask = "Play each note firmly, then repeat it fast. Listen and feel.",
  why = "Jams, hung dampers and loose parts show after a firm blow.",
  caution = "Loud blows: mind your hearing, and play no harder than the test needs.",
  faults = {
    { "jams", means = "hammer wedges on its check", todo = "Look at let-off, then at where and how it is caught." },
    { "no_check", means = "hammer is not caught", todo = "Look at aftertouch, then at the check." },
    { "misses", means = "a blow of a fast run is lost", todo = "Look at the springs, then at friction." },
    { "hung_damper", means = "goes on sounding", todo = "Look at what ends the dampers' rise, then at the pedal." },
    { "noise", means = "knock, click, buzz or squeak", todo = "Find it by holding parts one at a time." },
  },
  source = "list-2006-hard-blow; list-2006-fast-repetition",
}
