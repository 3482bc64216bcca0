-- Let-off and drop together: where the hammer rests after it has fallen. Counted from the string at last.
return step {
  id = "let_off_and_drop", title = "Hammer below string after the drop", stage = "set", kind = "derived", unit = "mm",
  scope = "every",
  plain = "How a hammer lets go of its key, and is caught after it has struck",
  ask = "Nothing to read: let-off and drop together.",
  formula = "let_off + drop",
  target = graded {                     -- the aim is the sum of the two aims; about 1/8 in is printed
    { "A0", range(2.2, 4, 3.7) },
    { "C8", range(2.2, 4, 2.7) },
  },
  resolution = 0.1,
  fix = { "drop_screw" },
  why = "Each may pass alone and the hammer still fall too far from a bass string, or hang too near in the treble.",
  source = "page-2021-drop: 1/8 in from the string; arithmetic: the two aims",
}
