-- Drop: how far the hammer falls below the let-off point. That point is the datum, not the string.
return step {
  id = "drop", title = "Drop", stage = "set", unit = "mm", scope = "every",
  plain = "How a hammer lets go of its key, and is caught after it has struck",
  ask = "Press the key slowly past let-off and hold it. Read how far the hammer falls below the let-off point.",
  why = "Too little and the hammer blocks and hides let-off. Too much and the spring's rise can't show.",
  target = range(0.5, 1.6, 1.2),
  resolution = 0.1, gauge = 0.3, even = 0.5,
  fix = { "drop_screw" },
  masks = { "repetition" },             -- a low drop screw hides the spring; a high one hides let-off: see slide_in
  source = "maker-regulation; maker-2013-manual; page-drop; page-2014-blog; list-1997-drop; " ..
    "list-2009-concert-drop; page-2021-drop; common-practice: lower limit, evenness",
}
