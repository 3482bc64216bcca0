-- Jack position: the jack under the knuckle, front to back.
return step {
  id = "jack_position", title = "Jack position", stage = "set", kind = "judged", scope = "every",
  plain = "How a hammer lets go of its key, and is caught after it has struck",
  ask = "Sight from the side. The jack's hammer-side face is in line with the same face of the knuckle core.",
  why = "Too far under and let-off is heavy. Too near the edge and the jack slips out on a firm blow.",
  faults = {
    { "deep", means = "too far under the knuckle", fix = { { "jack_button", "out" } } },
    { "shallow", means = "too near the edge of the knuckle", fix = { { "jack_button", "in" } } },
  },
  source = "page-grand-detail: part 6; list-2001-jack",
}
