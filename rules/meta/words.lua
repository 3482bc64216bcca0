---@meta
-- What rule files may call, for editors that read LuaLS annotations. Never executed: the engine has these
-- words built in, and a test holds this file to the engine's own table.
--
-- Numbers without a unit are in the step's (or the adjuster's) unit. A text may carry its own: "1/16 in".
-- Besides these words: assert error ipairs pairs select tonumber tostring type; math without random;
-- string.format len lower sub upper; table.concat insert remove unpack. pairs goes in order of the keys.

---What a reading must be. Made by range, at_least, at_most, about, by_colour, zones or graded.
---@class hl.target

---A target that goes by the note. Called once for every note from C0 to B8; must return range, at_least,
---at_most or about for each.
---@alias hl.target_function fun(note: hl.note): hl.target

---@class hl.note
---@field name string "C#4"
---@field number integer 1 = A0, 88 = C8
---@field colour "natural"|"sharp"
---@field octave integer 4 from C4 to B4

---What a word gives back: something to return, or to put into a book.
---@class hl.entry

---@class (exact) hl.step
---@field id string name in sheets and formulas; also the file's name
---@field title string name for people
---@field plain? string what it is about, in words for the owner; steps may share them
---@field stage string the stage of the work that it belongs to
---@field kind? "measured"|"judged"|"derived" measured unless stated
---@field unit? "mm"|"in"|"g"|"turn"|"deg"|"ratio" unit of the reading; a judged step has none
---@field need? "every"|"samples"|"optional" which notes must be read
---@field scope? "every"|"naturals"|"sharps"|"damped"|"sections"|"once" which notes have it
---@field target? hl.target|hl.target_function what a reading must be, or a function of the note
---@field resolution? number|string what a person reads to
---@field gauge? number|string uncertainty of one reading
---@field even? number|string how far a note may stand out from its neighbours
---@field breaks? boolean evenness stops at section breaks; true unless stated
---@field across? "colours" evenness compares naturals and sharps alike
---@field pair? string the step that is read at the same visit to a note
---@field faults? hl.fault[] the words of a judged step
---@field formula? string what a derived step is computed from
---@field model? string what a measured step should come to
---@field fix? string[] adjusters that correct it, the first one first
---@field low_todo? string what to do about a low reading, instead of an adjuster
---@field high_todo? string what to do about a high reading, instead of an adjuster
---@field masks? string[] steps whose readings mean nothing while this one is wrong
---@field ask string how to measure it
---@field why string what goes wrong without it
---@field method? string the usual method or gauge
---@field gauge_name? string the go/no-go gauge that 'within' refers to
---@field caution? string what can be damaged
---@field source? string where the figures come from
---@field unsourced? boolean no published figure exists

---One thing that is read off the action. A file of its own; the file is named like the id.
---A measured step needs unit, resolution and target. A judged step needs faults instead. A derived step
---needs unit, resolution and formula, and is never read.
---@param fields hl.step
---@return hl.entry
function step(fields) end

---@class (exact) hl.fault
---@field [1] string the word as written into a sheet
---@field means? string what it looks, feels or sounds like
---@field fix? [string, string][] ways out: { { "adjuster", "way" } }
---@field todo? string what to do, in words: beside `fix`, or without one

---@class (exact) hl.book
---@field id string the book's name; also the file's name
---@field api integer version of the rule language: 1
---@field title string name for people
---@field about? string what the book is for
---@field compass? string lowest and highest note: "A0-C8"
---@field stale_share? number share of half the target's width that a shift may use before a reading is stale
---@field [integer] hl.entry use, stage, change, adjuster, skip, fact, float, acknowledge, choice, choose, diagnosis:
---later ones win

---An ordered list of entries. The file is named like the id.
---@param fields hl.book
---@return hl.entry
function book(fields) end

---Put in a step file, or all entries of another book. Looked for beside this file, then in the rule
---folders and their shops/. Each file once.
---@param name string "drop" or "grand/drop", without .lua
---@return hl.entry
function use(name) end

---@class (exact) hl.stage
---@field [1] string the stage's name
---@field title? string name for people
---@field caution? string|false shown before the stage's work; false, with why: none
---@field why? string the reason why a caution is taken away

---A group of steps. Stages come in the order in which they are declared.
---@param fields hl.stage
---@return hl.entry
function stage(fields) end

---@class (exact) hl.change
---@field [1] string the step to change
---@field title? string name for people
---@field plain? string what it is about, in words for the owner; steps may share them
---@field stage? string the stage of the work that it belongs to
---@field unit? "mm"|"in"|"g"|"turn"|"deg"|"ratio" unit of the reading; a judged step has none
---@field need? "every"|"samples"|"optional" which notes must be read
---@field scope? "every"|"naturals"|"sharps"|"damped"|"sections"|"once" which notes have it
---@field target? hl.target|hl.target_function what a reading must be, or a function of the note
---@field resolution? number|string what a person reads to
---@field gauge? number|string uncertainty of one reading
---@field even? number|string how far a note may stand out from its neighbours
---@field breaks? boolean evenness stops at section breaks; true unless stated
---@field across? "colours" evenness compares naturals and sharps alike
---@field pair? string the step that is read at the same visit to a note
---@field faults? hl.fault[] the words of a judged step
---@field formula? string what a derived step is computed from
---@field model? string what a measured step should come to
---@field fix? string[] adjusters that correct it, the first one first
---@field low_todo? string what to do about a low reading, instead of an adjuster
---@field high_todo? string what to do about a high reading, instead of an adjuster
---@field masks? string[] steps whose readings mean nothing while this one is wrong
---@field ask? string how to measure it
---@field why? string the reason for the change
---@field method? string the usual method or gauge
---@field gauge_name? string the go/no-go gauge that 'within' refers to
---@field caution? string|false what can be damaged besides; false, with why: no caution
---@field source? string where the figures come from
---@field unsourced? boolean no published figure exists

---Replace fields of a step that the book has so far. Its id, its kind and what its unit measures stay.
---@param fields hl.change
---@return hl.entry
function change(fields) end

---@class (exact) hl.adjuster
---@field [1] string the adjuster's name
---@field title? string name for people
---@field verb? string turn, bend; absent when the way is itself the verb
---@field more? string the way that `moves` speaks of: "raise"
---@field less? string the other way: "lower"
---@field unit? "turn"|"mm"|"g"|"step" unit of the amount; absent: by judgement
---@field finest? number|string smallest useful move
---@field sizes? (number|string)[] the pieces in the box
---@field reach? number|string most that it can do from where it stands
---@field whole? boolean moves the whole instrument, not one note
---@field irreversible? boolean can't be taken back
---@field visit? string where the work is done: in the piano, bench, stack off, action out
---@field moves? table<string, number|string|false|hl.move> what one unit of `more` does to each step's reading
---@field elsewhere? string[] steps in `moves` that this book may not have
---@field assumed? boolean its moves have no published figure
---@field source? string where the figures come from
---@field why? string the reason for these figures

---@class (exact) hl.move
---@field [1] number|string a number or a formula over facts
---@field assumed? boolean no published figure exists
---@field way? "up"|"down" which way the reading goes while a fact of the formula is not stated
---@field again? boolean the way is sure, the size is a guess: read the step again after any move

---Something that is turned, shimmed, bent or moved, and what one unit of it moves. Named again it is laid
---over the first, field by field; moves merge, and moves = { x = false } takes one out.
---A move is a number (step units for one adjuster unit, in the direction `more`), a formula over facts,
---"up" or "down" (the reading's way is known, the amount is not), "strong" (disturbs, nothing more is known)
---or "slight" (hardly).
---@param fields hl.adjuster
---@return hl.entry
function adjuster(fields) end

---@class (exact) hl.skip
---@field [1] string the step to leave out
---@field why string the reason; it stays in the record

---Leave a step out. It stays in the record as not applicable, with the reason.
---@param fields hl.skip
---@return hl.entry
function skip(fields) end

---@class (exact) hl.fact
---@field [1] string the fact's name
---@field title? string name for people
---@field unit? string mm, g, ratio, mm/turn
---@field value? number the default for both colours; absent: the sheet must state it
---@field naturals? number the default for naturals
---@field sharps? number the default for sharps
---@field assumed? boolean no published figure exists
---@field source? string where the figure comes from
---@field why? string the reason for this figure

---A number about the piano that formulas need. Named again it is laid over the first.
---@param fields hl.fact
---@return hl.entry
function fact(fields) end

---@class (exact) hl.float
---@field [1] string the step that gives way
---@field within number|string how far

---Which of dip, blow and aftertouch gives way, and how far, when they cannot all be met.
---@param fields hl.float
---@return hl.entry
function float(fields) end

---@class (exact) hl.acknowledge
---@field [1] string the adjuster
---@field [2] string the earlier step that it disturbs
---@field why string why that is accepted

---Say that an adjuster disturbs an earlier step, and why that is accepted.
---@param fields hl.acknowledge
---@return hl.entry
function acknowledge(fields) end

---@class (exact) hl.choice
---@field [1] string the choice's name
---@field [2] string the option that holds unless a book chooses
---@field title string how the audit's sentence begins
---@field options table<string, string> the schools, each with the end of that sentence
---@field source? string who holds which

---Declare a school: a question that the trade answers in more than one way. Steps go by it with by_choice.
---@param fields hl.choice
---@return hl.entry
function choice(fields) end

---@class (exact) hl.choose
---@field [1] string the choice
---@field [2] string one of its options
---@field why? string the reason

---Take an option of a choice that the book has so far. The last one wins.
---@param fields hl.choose
---@return hl.entry
function choose(fields) end

---@class hl.by_choice
---@field [1] string the choice; the rest is named like its options
---@field [string] any a value for this option

---A field's value for each option of a choice: by_choice { "key_line", straight = T, crowned = T }. For the
---target, model, formula, faults, ask, why and method of a step; not one inside another.
---@param values hl.by_choice
---@return any
function by_choice(values) end

---@class (exact) hl.diagnosis
---@field [1] string the diagnosis's name
---@field title string what is seen
---@field when string a condition over steps and facts
---@field causes hl.cause[] causes in the order to check them
---@field spread? "note"|"wide" told of each note, or once when it holds at most notes
---@field quiet_by? string the diagnosis that silences this one
---@field source? string where it comes from

---@class (exact) hl.cause
---@field [1] string the cause
---@field test? string the quick test that tells it apart
---@field todo? string what to do about it

---A pattern over several steps of one note, and its causes in the order to check them.
---@param fields hl.diagnosis
---@return hl.entry
function diagnosis(fields) end

---@class (exact) hl.source
---@field [1] string the key that rules, tests and documents cite
---@field kind "published"|"page"|"message"|"practice"|"memory"|"arithmetic"|"geometry"|"standard"|"own" what sort of source it is
---@field archive? string the publication, archive or standard
---@field subject string what it says, in a few words
---@field date? string when: a year, a month and year, undated
---@field differs? string the keys of those who say otherwise

---An entry of the register of sources.
---@param fields hl.source
---@return hl.entry
function source(fields) end

---@class (exact) hl.renamed
---@field [1] string the name of before
---@field [2] string the name of the step, adjuster or fact now

---A name of before: sheets and books that use it are read as if they used the new one, with a notice.
---@param names hl.renamed
---@return hl.entry
function renamed(names) end

---@class (exact) hl.case
---@field [1] string the step that is read
---@field [2] string the note; "" or "once" for the instrument
---@field reads? number|string the reading as typed; absent: nothing was read
---@field with? table<string, number|string> other readings of the note
---@field facts? table<string, number|string> facts that the sheet states
---@field want string the verdict expected
---@field why? string low, high, uneven or the fault word
---@field fix? (string|number)[] the first correction: { "adjuster", "way", amount }
---@field source? string where the expectation comes from

---The tests of a book: tests "grand" { { "drop", "A4", reads = 5, want = "fail" } }
---@param name string the book
---@return fun(cases: hl.case[]): hl.entry
function tests(name) end

---From low to high, both included. The aim is the middle unless given.
---@param low number|string
---@param high number|string
---@param aim? number|string
---@return hl.target
function range(low, high, aim) end

---No less than low. The aim is low unless given.
---@param low number|string
---@param aim? number|string
---@return hl.target
function at_least(low, aim) end

---No more than high. The aim is high unless given.
---@param high number|string
---@param aim? number|string
---@return hl.target
function at_most(high, aim) end

---The aim, and how far a reading may be from it to either side.
---@param aim number|string
---@param tolerance number|string
---@return hl.target
function about(aim, tolerance) end

---@class (exact) hl.by_colour
---@field naturals hl.target|hl.target_function target of the naturals
---@field sharps hl.target|hl.target_function target of the sharps

---One target for naturals and one for sharps. Each may be zones, graded or a function.
---@param targets hl.by_colour
---@return hl.target
function by_colour(targets) end

---One target a zone: zones { { "A0-B2", range(3, 4) }, { "C3-C8", range(2, 3) } }. From low to high, without
---a gap; the outermost reach past their ends.
---@param rows [string, hl.target][]
---@return hl.target
function zones(rows) end

---A straight line between anchor notes: graded { { "A0", range(3, 4) }, { "C8", range(2, 3) } }. Held
---constant outside, rounded to the resolution of the step.
---@param rows [string, hl.target][]
---@return hl.target
function graded(rows) end
