-- Let-off of an upright.
return step {
  id = "let_off", title = "Let-off", stage = "set", unit = "mm", scope = "every",
  plain = "How a hammer lets go of its key, and is caught after it has struck",
  ask = "Press the key very slowly. Read the gap between hammer and string where the jack lets go.",
  why = "Too close blocks, too far loses soft playing.",
  target = graded {
    { "A0", range(2.4, 3.4, 3) },
    { "C8", range(1.5, 2.6, 2) },
  },
  resolution = 0.1, gauge = 0.3, even = 0.5, across = "colours",
  fix = { "let_off_button" },
  gauge_name = "let-off strip",
  source = "list-1998-upright; digest-2010-upright; page-regulating: outer limits; common-practice: the bands",
}
