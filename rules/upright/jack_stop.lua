-- Jack stop: where fitted, a rail or felt that ends the jack's way once it has left the butt.
return step {
  id = "jack_stop", title = "Jack stop", stage = "refine", kind = "judged", scope = "sections", need = "optional",
  plain = "How quickly a note can be repeated",
  ask = "Where the action has one: key down, the jack has cleared the butt and only then meets its stop, softly.",
  why = "A stop that is met early robs aftertouch; one that is never met lets the jack swing and click.",
  faults = {
    { "early", means = "the jack meets it before it is clear", fix = { { "jack_stop_rail", "away from the jacks" } } },
    { "late", means = "the jack swings free, or clicks", fix = { { "jack_stop_rail", "toward the jacks" } } },
    { "hard", means = "its felt is hard or gone", todo = "Renew the felt." },
  },
  unsourced = true,
}
