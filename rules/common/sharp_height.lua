-- Sharp height: the front end of the sharp above the top of its natural neighbours.
return step {
  id = "sharp_height", title = "Sharp height", stage = "keys", unit = "mm", scope = "sharps",
  plain = "Keys: level, evenly spaced, free to move",
  ask = "Set the gauge on the naturals beside the sharp and read the front end of the sharp.",
  why = "It sets how much of the sharp is left when it is down. A high sharp meets the fallboard.",
  target = range(11.5, "1/2 in", 12),
  resolution = 0.1, gauge = 0.2, even = 0.5,
  fix = { "balance_punching" },
  method = "height gauge",
  source = "list-1998-sharp-height; college-1998-sharp-ceiling; list-2010-models; " ..
    "common-practice: lower limit, evenness",
}
