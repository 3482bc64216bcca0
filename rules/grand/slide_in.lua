-- Ready to slide in: nothing may strike or hide another setting at the first try in the piano. It comes before
-- whatever puts the stack in the piano.
return step {
  id = "slide_in", title = "Ready to slide in", stage = "align", kind = "judged", scope = "once",
  plain = "Screws, and the fit in the piano",
  ask = "Checks stand back, let-off buttons and drop screws are low, no key is down, all hammers clear the stretcher.",
  why = "A high hammer breaks on the stretcher. A high drop screw hides let-off.",
  caution = "Two people. No key down. Mind fingers and back. Unplug any heater or humidity system first.",
  faults = {
    { "not_clear", means = "a part stands high or in the way", todo = "Set it low or back before the action moves." },
  },
  source = "page-grand-detail: part 16, 2023; common-practice: checks back",
}
