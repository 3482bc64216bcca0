-- Jack clearance: the other way to read an upright's aftertouch, at the jack instead of the key.
return step {
  id = "jack_clearance", title = "Jack clear of butt", stage = "refine", unit = "mm", scope = "every",
  need = "optional",
  plain = "How a hammer lets go of its key, and is caught after it has struck",
  ask = "Key down, hammer in check. Read the gap between jack and butt.",
  why = "Shows at a glance that there is aftertouch, and not too much.",
  target = range(0.5, 1.5, 1),
  resolution = 0.5, gauge = 0.5,
  low_todo = "Aftertouch first; if that is right, look for swollen or worn butt felt.",
  high_todo = "Aftertouch first; if that is right, look at where the check holds the hammer.",
  source = "digest-2010-upright; common-practice: the band",
}
