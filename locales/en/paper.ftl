# What stands on the paper ballot beside the election's own texts, English.
paper-style = Ballot style { $style }
paper-how-heading = How to mark this ballot
paper-how-fill = Fill in the whole oval beside your choice. Use a black or blue pen.
paper-how-write = To vote for a person who is not listed, fill in the oval and write the name above the line.
paper-how-mistake = If you make a mistake, ask for a new ballot.
paper-limit-one = Vote for 1
paper-limit-many = Vote for up to { $limit }
paper-limit-any = Vote for as many as you like
paper-limit-ranks = Rank up to { $limit }. Column 1 is for the one you like best. Fill in at most one oval in each row and in each column.
paper-limit-measure = Vote for 1 answer
paper-affects-party = { $count ->
    [one] A vote here also counts in { $count } other contest, for the people of that party.
   *[other] A vote here also counts in { $count } other contests, for the people of that party.
}
paper-affects-activation = Your answer may decide if this contest counts: { $contests }.
paper-rank-heading = { $rank }
paper-write-in = Write-in
paper-continued = { $title } (continued)
paper-turn-over = Turn over.
paper-next-sheet = Go on with sheet { $sheet }.
paper-last = End of ballot.
paper-sheet = Sheet { $sheet } of { $sheets }
paper-date = { $month ->
    [1] January
    [2] February
    [3] March
    [4] April
    [5] May
    [6] June
    [7] July
    [8] August
    [9] September
    [10] October
    [11] November
   *[other] December
} { $day }, { $year }
paper-state-test = Test ballot
paper-state-demo = Demo. Not a ballot.
