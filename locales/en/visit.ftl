# What a voter reads and hears, English. A ".heard" attribute is said where it differs from what is read.
plain = { $text }

# The bar at the bottom, and long lists.
bar-back = Back
bar-next = Next
bar-hear-again = Hear again
bar-comfort = Size and sound
bar-help = Help
bar-done = Done
bar-skip = Skip
bar-to-review = Back to review
bar-keep = Keep my choices
more-above = { $count ->
    [one] { $count } more above
   *[other] { $count } more above
}
more-below = { $count ->
    [one] { $count } more below
   *[other] { $count } more below
}
state-demo = Demo. This is not a real ballot.
state-test = Test. This is not a real ballot.
notice-no-speech = Sound has stopped. A worker has been called. You can go on with the screen.
option-place = Option { $option } of { $options }.
block-rows = { $first } to { $last }: from { $from } to { $to }.
block-back-one = Back to the last one
block-start = Start of these again
group = More: { $items }.

# The screen that a voter has hidden.
cover-line = Listen with the headphones. Touch is off.
said-covered = The screen is hidden. Touch is off.
said-hidden = Yes. Your screen is hidden.
said-shown = No. Your screen can be seen.
screen-is-hidden = screen hidden
screen-is-shown = screen shown
hide-needs-voice = First turn the voice on. Then you can hide the screen.
ask-hide-heading = Hide the screen?
ask-hide-line = Then touch is off. You will need keys or switches.
ask-hide-yes = Yes, hide it
ask-hide-no = No, keep it

# Listening to a screen.
listen-heading = Hear this screen
listen-on = Next sentence
listen-back = Sentence before
listen-pause = Pause
listen-go-on = Go on
listen-start = From the start
listen-spell = Spell the name
listen-hidden = Is my screen hidden?
nothing-to-spell = There is no name here to spell.

# Time.
more-time-heading = Do you need more time?
more-time-line = Press any button to go on. Your choices are kept.
more-time-yes = Yes, I need more time

# Switches and presses.
comfort-hide = Hide the screen
comfort-show = Show the screen
comfort-presses = Switches and presses
presses-heading = Switches and presses
presses-line = Change these if your presses go wrong.
one-switch = Use one switch
two-switches = Use two switches
has-one-switch = one switch: the station moves on by itself
has-two-switches = two switches
scan-faster = Move on faster
scan-slower = Move on slower
scan-step = wait { $step } of { $steps }
accept-longer = Count only longer presses
accept-shorter = Count shorter presses too
accept-step = length { $step } of { $steps }
ignore-longer = Wait longer between presses
ignore-shorter = Wait less between presses
ignore-step = wait { $step } of { $steps }
offer-heading = Make your presses easier?
offer-accept = Some presses were very short. The station can skip those.
offer-ignore = Some presses came twice. The station can skip the second one.
offer-scan = The station can move on at your own pace.
offer-yes = Yes, do that
offer-no = No, leave it

# Opening.
opening-heading = Welcome. Mark your ballot here.
opening-precinct = Your precinct: { $precinct }
opening-party = Party: { $party }
opening-how = Press any button to go on.
opening-begin = Start
opening-not-mine = This is not my ballot

# Languages.
languages-heading = Choose your language
language-name = English
language-chosen = English is chosen.
state-chosen = chosen
state-not-chosen = not chosen

# Comfort.
comfort-heading = Size, color and sound
comfort-line = You can change these at any time. You will not lose your choices.
comfort-larger = Make letters larger
comfort-smaller = Make letters smaller
comfort-colours = Change colors
comfort-speech-on = Turn the voice on
comfort-speech-off = Turn the voice off
comfort-faster = Speak faster
comfort-slower = Speak slower
comfort-louder = Louder
comfort-softer = Softer
comfort-language = Change language
size-small = small letters
size-medium = medium letters
size-large = large letters
size-largest = largest letters
size-is-most = This screen cannot show larger letters.
palette-dark-on-light = dark on white
palette-light-on-dark = white on black
palette-yellow-on-dark = yellow on black
palette-low-contrast = soft colors
pace-step = speed { $step } of { $steps }
loudness-step = loudness { $step } of { $steps }
speech-is-on = voice on
speech-is-off = voice off

# Practice and how to vote.
practice-heading = Try it first
practice-line = Which fruit do you like? Choose one. This is not on your ballot.
practice-first = Apple
practice-second = Banana
practice-third = Cherry
practice-full = You can choose only one here. First undo the one you chose.
practice-chosen = Chosen. To undo it, choose it again.
practice-undone = Not chosen any more.
how-to-heading = How to vote
how-to-choose = Choose a name. Its oval turns black.
how-to-undo = To undo it, choose it again.
how-to-leave = You may leave any contest empty.
how-to-review = At the end you can look at all your choices and change them.
how-to-paper = Then you print your ballot on paper and check it.

# A contest.
contest-place = Contest { $contest } of { $contests }
limit-one = Vote for 1
limit-many = Vote for up to { $limit }
limit-any = Vote for as many as you like
limit-ranks = Rank up to { $limit }. Choice 1 is the one you like best.
limit-measure = Choose 1 answer
count-chosen = { $chosen ->
    [0] You have chosen none.
   *[other] You have chosen { $chosen } of { $limit }.
} { $left ->
    [0] You may choose no more.
   *[other] You may choose { $left } more.
}
count-ranked = { $chosen ->
    [0] You have ranked none.
   *[other] You have ranked { $chosen } of { $limit }.
} { $left ->
    [0] You may rank no more.
   *[other] You may rank { $left } more.
}
affects-party = { $count ->
    [one] Your choice here also counts in { $count } other contest, for the people of that party. You may still choose there.
   *[other] Your choice here also counts in { $count } other contests, for the people of that party. You may still choose there.
}
affects-activation = Your answer may decide if this contest counts: { $contests }. You may still vote in it.
read-full-text = Read the full text
full-text-heading = Full text: { $title }
write-in-row = Write in a name
write-in-named = Write-in: { $name }
write-in-blank = Write-in with no name
state-rank = choice { $rank }
state-no-rank = not ranked
said-chosen = Chosen: { $name }.
said-undone = No longer chosen: { $name }.
said-ranked = { $name } is now choice { $rank }.

# The limit.
limit-heading = { $limit ->
    [one] You have chosen { $limit }. That is the most you can choose here.
   *[other] You have chosen { $limit }. That is the most you can choose here.
}
limit-line = To choose { $wanted }, first undo one of these.
undo-option = Undo { $name }

# Ranks.
rank-pick-heading = Which choice is { $name }?
rank-free = Choice { $rank }
rank-taken = Choice { $rank } is { $name }.
rank-change-heading = { $name } is your choice { $rank }
rank-undo = Undo this choice
rank-move = Make it choice { $rank }
lower-heading = Move your lower choices up?
lower-line = You are taking one choice away. The ones below it can move up, or stay where they are.
lower-move-up = Move them up
lower-stay = Leave them as they are

# Writing in.
write-in-heading = Write in a name
write-in-line = Write only a name that is not on the list.
write-in-so-far = So far: { $name }
write-in-nothing = Nothing is written yet.
keys-row = { $first } to { $last }
key-name = { $letter }
key-written = { $letter }
key-refused = { $letter } does not fit. The name is full.
write-in-delete = Take away the last letter
write-in-deleted = Taken away: { $letter }
write-in-no-letter = There is no letter to take away.
write-in-spell = Hear the letters
write-in-spelled = { $letters }
write-in-finish = The name is done
blank-heading = You wrote no name
blank-line = A write-in with no name may not count.
blank-write = Write a name
blank-keep = Leave it marked with no name
blank-undo = Do not use the write-in
write-in-change-heading = You wrote in a name
write-in-edit = Change the name
write-in-undo = Undo the write-in

# Review and print.
review-heading = Check your choices
review-complete = { $complete ->
   *[other] You are done with { $complete } of { $contests } contests.
}
review-left = { $left ->
    [one] { $left } contest has choices left. It comes first. That is fine if you want it so.
   *[other] { $left } contests have choices left. They come first. That is fine if you want it so.
}
review-how = To change a choice, pick its contest.
review-title = { $contest }. { $title }
review-nothing = Nothing chosen
review-chosen = { $names }
review-more-left = { $left ->
   *[other] You may choose { $left } more.
}
review-full = Done.
review-ranked = choice { $rank }: { $name }
review-print = Print
ask-print-heading = Print your ballot now?
ask-print-line = After you print, you can not change this paper. You will check it before you cast it.
ask-print-left = { $left ->
    [one] { $left } contest still has choices left.
   *[other] { $left } contests still have choices left.
}
ask-print-yes = Yes, print my ballot
ask-print-no = No, go back to my choices
printing-heading = Your ballot is printing
printing-line = Please wait.
print-fault-heading = Your ballot did not print
fault-paper = The printer has no paper.
fault-jam = Paper is stuck in the printer.
fault-offline = The printer does not answer.
fault-not-made = The ballot could not be made ready for the printer.
fault-kept = This is not your fault. Your choices are kept. A worker can help.
print-again = Try to print again
call-worker = Call a worker

# The paper.
reading-heading = The station is reading your paper
reading-line = Please wait.
read-fault-heading = Your paper could not be read
fault-no-sheet = No sheet was found.
fault-unreadable = The marks on the sheet were not clear.
fault-other-ballot = This is a sheet of another ballot.
fault-print-differs = Something on the sheet is not as it should be. Do not use this sheet.
read-again = Read the paper again
new-sheet = Get a new ballot
check-heading = Is your paper ballot right?
check-line = Look at every contest on the paper, or have the paper read to you. It is not cast yet.
check-sheets = { $sheets ->
    [one] Your ballot is on { $sheets } sheet.
   *[other] Your ballot is on { $sheets } sheets.
}
check-yes = Yes, it is right
check-no = No, something is wrong
check-read = Read it to me
read-back-heading = This is on your paper
read-back-line = These words come from the paper.
paper-contest = { $title }
paper-nothing = Nothing is marked
paper-marked = Marked: { $names }
paper-ranked = { $names }
paper-rank = choice { $rank }, { $name }
paper-doubt = One mark here is not clear. Please look at it.
paper-write-in-read = write-in { $name }
paper-write-in-unread = a handwritten or typed name that I can't read
paper-write-in-none = write-in with no name
differs-heading = The paper is not what you chose
differs-line = Do not use this paper. It is not your fault. Please get a new ballot or call a worker.
differs-where = Look at: { $contests }
spoil-heading = Get a new ballot
spoil-device-heading = You will get a new ballot
spoil-line = Do not cast the paper you have. Give it to a worker. What do you want to do?
spoil-left = { $left ->
    [one] You can get { $left } more new ballot here.
   *[other] You can get { $left } more new ballots here.
}
spoil-none = You have had all the new ballots that this station may print for you. A worker can help you.
spoil-keep = Keep my choices and correct them
spoil-fresh = Start again with no choices
spoil-cancel = Go back, the paper is right
done-heading = Your ballot is printed. It is not cast yet.
done-line = Take your paper to the ballot box, or to the ballot scanner. It counts only when you put it in.
done-sheets = { $sheets ->
    [one] You have { $sheets } sheet to put in.
   *[other] You have { $sheets } sheets to put in. Put in every one.
}
done-thanks = This station keeps no vote. Thank you.
done-leave = I have my paper. I am done.

# Help and the worker.
help-heading = How can we help?
help-explain = Explain this screen
help-worker = Call a worker
explain-heading = About this screen
worker-heading = The screen is hidden
worker-line = A worker has been called. Your choices are kept. No one can see them.
worker-asked = The voter asked for help.
worker-not-mine = The voter says: this is not my ballot.
worker-replacements = The voter wants one more new ballot.
worker-device = A device needs a worker.
worker-no-press = Nobody pressed a button for some time.
worker-came = A worker is here. Your choices are hidden and kept.
worker-return = Go back to where the voter was
worker-here = A worker is here
worker-end = Worker: end this visit
confirm-end-heading = End this visit?
confirm-end-line = All choices will be wiped. A sheet that was printed must be taken out.
confirm-end-yes = Yes, end the visit
confirm-end-no = No, go back
ended-heading = This visit is over
ended-line = Nothing was kept.

# What each screen is for.
explain-opening = This screen shows which ballot you will mark. If it is not yours, say so here.
explain-languages = Choose the language that you want to read and hear.
explain-comfort = Make the letters larger, change the colors, or change the voice.
explain-presses = Here you can change how your switches and presses work.
explain-hide = Hide the screen if you listen and want no one to see your choices.
explain-practice = Here you can try how to choose. It does not count.
explain-how-to = These lines tell you how to vote.
explain-contest = This is one contest of your ballot. Choose the names you want. Then go on with Next.
explain-limit = You have chosen as many as you can. Undo one if you want to choose another.
explain-rank = Here you put people in order. Choice 1 is the one you like best.
explain-write-in = Here you write a name with the keys on the screen.
explain-full-text = This is the full text of the question.
explain-review = These are all your choices. Pick a contest to change it. Choose Print when you are ready.
explain-print = The printer marks your paper ballot for you.
explain-fault = Something went wrong with a device. It is not your fault. A worker can help.
explain-paper = Check your paper here. You can look at it, or hear what is on it.
explain-spoil = If your paper is wrong, you can get a new one.
explain-done = Your paper is ready. Take it and put it in the ballot box or the scanner.
explain-switches = With two switches: the first goes to the next item. The second chooses it. With one switch, the station goes on by itself. Press when you hear what you want.
explain-keys = With keys: the arrows go up and down. Enter chooses. P stops the voice and goes on. S spells a name.
explain-touch = With touch: touch what you want.

# Joining, letters and names.
list-separator = { ", " }
ticket-separator = { " and " }
letter-space = space
letter-hyphen = hyphen
letter-apostrophe = apostrophe
letter-period = period
letter-a-acute = Á
    .heard = A with an accent
letter-e-acute = É
    .heard = E with an accent
letter-i-acute = Í
    .heard = I with an accent
letter-o-acute = Ó
    .heard = O with an accent
letter-u-acute = Ú
    .heard = U with an accent
letter-n-tilde = Ñ
    .heard = N with a tilde
letter-u-diaeresis = Ü
    .heard = U with two dots
letter-a-diaeresis = Ä
    .heard = A with two dots
letter-e-diaeresis = Ë
    .heard = E with two dots
letter-i-diaeresis = Ï
    .heard = I with two dots
letter-o-diaeresis = Ö
    .heard = O with two dots
letter-c-cedilla = Ç
    .heard = C with a cedilla
