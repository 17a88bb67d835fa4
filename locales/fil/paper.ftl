# What stands on the paper ballot beside the election's own texts, Filipino.
# Unreviewed: a certified translator must check it before use.
paper-style = Uri ng balota { $style }
paper-how-heading = Paano markahan ang balotang ito
paper-how-fill = Punan ang buong oval sa tabi ng pinili ninyo. Gumamit ng itim o asul na bolpen.
paper-how-write = Para iboto ang taong wala sa listahan, punan ang oval at isulat ang pangalan sa itaas ng linya.
paper-how-mistake = Kung magkamali kayo, humingi ng bagong balota.
paper-limit-one = Bumoto ng 1
paper-limit-many = Bumoto ng hanggang { $limit }
paper-limit-any = Bumoto ng kahit ilang gusto ninyo
paper-limit-ranks = Bigyan ng puwesto ang hanggang { $limit }. Ang kolum 1 ay para sa pinakagusto ninyo. Isang oval lang ang puwedeng punan sa bawat hilera at sa bawat kolum.
paper-limit-measure = Bumoto ng isang sagot
paper-affects-party = Ang boto rito ay bibilangin din sa { $count } pang paligsahan, para sa mga tao ng partidong iyon.
paper-affects-activation = Ang sagot ninyo ay puwedeng magpasya kung bibilangin ang paligsahang ito: { $contests }.
paper-rank-heading = { $rank }
paper-write-in = Isulat ang pangalan
paper-continued = { $title } (karugtong)
paper-turn-over = Baligtarin ang papel.
paper-next-sheet = Ituloy sa papel { $sheet }.
paper-last = Katapusan ng balota.
paper-sheet = Papel { $sheet } ng { $sheets }
paper-date = { $month ->
    [1] Enero
    [2] Pebrero
    [3] Marso
    [4] Abril
    [5] Mayo
    [6] Hunyo
    [7] Hulyo
    [8] Agosto
    [9] Setyembre
    [10] Oktubre
    [11] Nobyembre
   *[other] Disyembre
} { $day }, { $year }
paper-state-test = Balotang pansubok
paper-state-demo = Demo. Hindi ito balota.
