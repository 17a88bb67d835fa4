# What a voter reads and hears, Filipino. A ".heard" attribute is said where it differs from what is read.
# Unreviewed: a certified translator must check it before use.
plain = { $text }

# The bar at the bottom, and long lists.
bar-back = Bumalik
bar-next = Susunod
bar-hear-again = Pakinggan muli
bar-comfort = Laki at tunog
bar-help = Tulong
bar-done = Tapos na
bar-skip = Laktawan
bar-to-review = Bumalik sa pagsusuri
bar-keep = Huwag baguhin
more-above = { $count } pa sa itaas
more-below = { $count } pa sa ibaba
state-demo = Demo. Hindi ito tunay na balota.
state-test = Pagsubok. Hindi ito tunay na balota.
notice-no-speech = Huminto ang tunog. May tinawag nang tauhan. Puwede kayong magpatuloy gamit ang screen.
option-place = Opsiyon { $option } ng { $options }.
block-rows = { $first } hanggang { $last }: mula { $from } hanggang { $to }.
block-back-one = Bumalik sa huli
block-start = Bumalik sa una ng mga ito
group = Iba pa: { $items }.

# The screen that a voter has hidden.
cover-line = Makinig gamit ang headphones. Nakapatay ang touch.
said-covered = Nakatago ang screen. Nakapatay ang touch.
said-hidden = Opo. Nakatago ang screen ninyo.
said-shown = Hindi po. Nakikita ang screen ninyo.
screen-is-hidden = nakatago ang screen
screen-is-shown = nakikita ang screen
hide-needs-voice = Buksan muna ang boses. Saka ninyo maitatago ang screen.
ask-hide-heading = Itago ang screen?
ask-hide-line = Mamamatay ang touch kapag itinago ito. Kakailanganin ninyo ng mga pindutan o switch.
ask-hide-yes = Oo, itago ito
ask-hide-no = Hindi, huwag itago

# Listening to a screen.
listen-heading = Pakinggan ang screen na ito
listen-on = Susunod na pangungusap
listen-back = Naunang pangungusap
listen-pause = Ihinto muna
listen-go-on = Ituloy
listen-start = Mula sa simula
listen-spell = Baybayin ang pangalan
listen-hidden = Nakatago ba ang screen ko?
nothing-to-spell = Walang pangalan dito na mababaybay.

# Time.
more-time-heading = Kailangan ba ninyo ng dagdag na oras?
more-time-line = Pindutin ang kahit aling pindutan para magpatuloy. Hindi nawala ang mga pinili ninyo.
more-time-yes = Oo, kailangan ko ng dagdag na oras

# Switches and presses.
comfort-hide = Itago ang screen
comfort-show = Ipakita ang screen
comfort-presses = Mga switch at pagpindot
presses-heading = Mga switch at pagpindot
presses-line = Baguhin ang mga ito kung hindi maayos ang pagpindot ninyo.
one-switch = Gumamit ng isang switch
two-switches = Gumamit ng dalawang switch
has-one-switch = isang switch: kusang lumilipat sa kasunod ang istasyon
has-two-switches = dalawang switch
scan-faster = Bilisan ang paglipat
scan-slower = Bagalan ang paglipat
scan-step = hintay { $step } ng { $steps }
accept-longer = Bilangin lang ang mas mahabang pindot
accept-shorter = Bilangin din ang mas maikling pindot
accept-step = haba { $step } ng { $steps }
ignore-longer = Mas matagal na hintay bawat pindot
ignore-shorter = Mas maikling hintay bawat pindot
ignore-step = hintay { $step } ng { $steps }
offer-heading = Gawing mas madali ang pagpindot ninyo?
offer-accept = May ilang pindot na napakaikli. Puwedeng laktawan ng istasyon ang mga iyon.
offer-ignore = May ilang pindot na nadoble. Puwedeng laktawan ng istasyon ang ikalawa.
offer-scan = Puwedeng lumipat sa kasunod ang istasyon ayon sa bilis ninyo.
offer-yes = Oo, gawin iyon
offer-no = Hindi, huwag baguhin

# Opening.
opening-heading = Maligayang pagdating. Markahan dito ang balota ninyo.
opening-precinct = Presinto ninyo: { $precinct }
opening-party = Partido: { $party }
opening-how = Pindutin ang kahit aling pindutan para magpatuloy.
opening-begin = Simulan
opening-not-mine = Hindi ito ang balota ko

# Languages.
languages-heading = Piliin ang wika ninyo
language-name = Filipino
language-chosen = Pinili ang Filipino.
state-chosen = pinili
state-not-chosen = hindi pinili

# Comfort.
comfort-heading = Laki, kulay at tunog
comfort-line = Puwede ninyong baguhin ang mga ito kahit kailan. Hindi mawawala ang mga pinili ninyo.
comfort-larger = Palakihin ang letra
comfort-smaller = Paliitin ang letra
comfort-colours = Palitan ang kulay
comfort-speech-on = Buksan ang boses
comfort-speech-off = Patayin ang boses
comfort-faster = Bilisan ang salita
comfort-slower = Bagalan ang salita
comfort-louder = Lakasan
comfort-softer = Hinaan
comfort-language = Palitan ang wika
size-small = maliit na letra
size-medium = katamtamang letra
size-large = malaking letra
size-largest = pinakamalaking letra
size-is-most = Hindi kayang ipakita ng screen na ito ang mas malalaking letra.
palette-dark-on-light = itim sa puti
palette-light-on-dark = puti sa itim
palette-yellow-on-dark = dilaw sa itim
palette-low-contrast = malamlam na kulay
pace-step = bilis { $step } ng { $steps }
loudness-step = lakas { $step } ng { $steps }
speech-is-on = may boses
speech-is-off = walang boses

# Practice and how to vote.
practice-heading = Subukan muna
practice-line = Aling prutas ang gusto ninyo? Pumili ng isa. Wala ito sa balota ninyo.
practice-first = Mansanas
practice-second = Saging
practice-third = Cherry
practice-full = Isa lang ang puwedeng piliin dito. Bawiin muna ang pinili ninyo.
practice-chosen = Pinili na. Para bawiin ito, piliin ito muli.
practice-undone = Hindi na pinili.
how-to-heading = Paano bumoto
how-to-choose = Pumili ng pangalan. Magiging itim ang oval nito.
how-to-undo = Para bawiin ito, piliin ito muli.
how-to-leave = Puwede ninyong iwanang blangko ang kahit aling paligsahan.
how-to-review = Sa dulo, makikita at mababago ninyo ang lahat ng pinili ninyo.
how-to-paper = Pagkatapos, i-print ninyo ang balota sa papel at suriin ito.

# A contest.
contest-place = Paligsahan { $contest } ng { $contests }
limit-one = Bumoto ng 1
limit-many = Bumoto ng hanggang { $limit }
limit-any = Bumoto ng kahit ilang gusto ninyo
limit-ranks = Bigyan ng puwesto ang hanggang { $limit }. Ang ika-1 puwesto ay para sa pinakagusto ninyo.
limit-measure = Pumili ng isang sagot
count-chosen = { $chosen ->
    [0] Wala pa kayong pinili.
   *[other] Nakapili na kayo ng { $chosen } sa { $limit }.
} { $left ->
    [0] Hindi na kayo puwedeng pumili pa.
   *[other] Puwede pa kayong pumili ng { $left }.
}
count-ranked = { $chosen ->
    [0] Wala pa kayong binigyan ng puwesto.
   *[other] Nabigyan na ninyo ng puwesto ang { $chosen } sa { $limit }.
} { $left ->
    [0] Hindi na kayo puwedeng magbigay pa ng puwesto.
   *[other] { $left } pa ang puwede ninyong bigyan ng puwesto.
}
affects-party = Ang pinili ninyo rito ay bibilangin din sa { $count } pang paligsahan, para sa mga tao ng partidong iyon. Puwede pa rin kayong pumili roon.
affects-activation = Ang sagot ninyo ay puwedeng magpasya kung bibilangin ang paligsahang ito: { $contests }. Puwede pa rin kayong bumoto roon.
read-full-text = Basahin ang buong teksto
full-text-heading = Buong teksto: { $title }
write-in-row = Magsulat ng pangalan
write-in-named = Isinulat: { $name }
write-in-blank = Blangkong sulatan ng pangalan
state-rank = ika-{ $rank } puwesto
state-no-rank = walang puwesto
said-chosen = Pinili: { $name }.
said-undone = Hindi na pinili: { $name }.
said-ranked = { $name }: nasa ika-{ $rank } puwesto na.

# The limit.
limit-heading = Nakapili na kayo ng { $limit }. Hanggang diyan lang ang puwede ninyong piliin dito.
limit-line = Bawiin muna ang isa sa mga ito. Saka ninyo mapipili: { $wanted }.
undo-option = Bawiin: { $name }

# Ranks.
rank-pick-heading = { $name }: anong puwesto?
rank-free = Ika-{ $rank } puwesto
rank-taken = Ika-{ $rank } puwesto: { $name }.
rank-change-heading = { $name }: nasa ika-{ $rank } puwesto
rank-undo = Bawiin ang puwestong ito
rank-move = Ilipat sa ika-{ $rank } puwesto
lower-heading = Iangat ang mga nasa ibaba?
lower-line = May inaalis kayong isa. Ang mga nasa ibaba nito ay puwedeng umangat, o manatili sa puwesto nila.
lower-move-up = Iangat ang mga ito
lower-stay = Huwag galawin ang mga ito

# Writing in.
write-in-heading = Magsulat ng pangalan
write-in-line = Isulat lang ang pangalan na wala sa listahan.
write-in-so-far = Naisulat na: { $name }
write-in-nothing = Wala pang nakasulat.
keys-row = { $first } hanggang { $last }
key-name = { $letter }
key-written = { $letter }
key-refused = Hindi kasya: { $letter }. Puno na ang sulatan ng pangalan.
write-in-delete = Alisin ang huling letra
write-in-deleted = Inalis: { $letter }
write-in-no-letter = Walang letrang maaalis.
write-in-spell = Pakinggan ang mga letra
write-in-spelled = { $letters }
write-in-finish = Tapos na ang pangalan
blank-heading = Wala kayong isinulat na pangalan
blank-line = Kapag walang isinulat na pangalan, baka hindi ito bilangin.
blank-write = Magsulat ng pangalan
blank-keep = Iwanang may marka pero walang pangalan
blank-undo = Huwag gamitin ang sulatan
write-in-change-heading = Nagsulat kayo ng pangalan
write-in-edit = Baguhin ang pangalan
write-in-undo = Bawiin ang isinulat

# Review and print.
review-heading = Suriin ang mga pinili ninyo
review-complete = Mga paligsahang natapos ninyo: { $complete } ng { $contests }.
review-left = { $left } pa ang paligsahang may puwedeng piliin. Nasa unahan ng listahan. Ayos lang kung gusto ninyo iyon.
review-how = Para baguhin ang pinili ninyo, piliin ang paligsahan nito.
review-title = { $contest }. { $title }
review-nothing = Walang pinili
review-chosen = { $names }
review-more-left = Puwede pa kayong pumili ng { $left }.
review-full = Tapos na.
review-ranked = ika-{ $rank } puwesto: { $name }
review-print = I-print
ask-print-heading = I-print na ba ang balota ninyo?
ask-print-line = Pagkatapos mag-print, hindi na ninyo mababago ang papel na ito. Susuriin muna ninyo ang papel bago ito ipasok para bilangin.
ask-print-left = { $left } pa ang paligsahang may puwedeng piliin.
ask-print-yes = Oo, i-print ang balota ko
ask-print-no = Hindi, bumalik sa mga pinili ko
printing-heading = Pini-print ang balota ninyo
printing-line = Maghintay po.
print-fault-heading = Hindi na-print ang balota ninyo
fault-paper = Walang papel ang printer.
fault-jam = May papel na naipit sa printer.
fault-offline = Hindi sumasagot ang printer.
fault-not-made = Hindi naihanda ang balota para sa printer.
fault-kept = Hindi ninyo ito kasalanan. Hindi nawala ang mga pinili ninyo. Matutulungan kayo ng tauhan.
print-again = Subukang i-print muli
call-worker = Tumawag ng tauhan

# The paper.
reading-heading = Binabasa ng istasyon ang papel ninyo
reading-line = Maghintay po.
read-fault-heading = Hindi nabasa ang papel ninyo
fault-no-sheet = Walang nakitang papel.
fault-unreadable = Hindi malinaw ang mga marka sa papel.
fault-other-ballot = Papel ito ng ibang balota.
fault-print-differs = May hindi tama sa papel. Huwag gamitin ang papel na ito.
read-again = Basahin muli ang papel
new-sheet = Kumuha ng bagong balota
check-heading = Tama ba ang papel na balota ninyo?
check-line = Tingnan ang bawat paligsahan sa papel, o ipabasa ang papel. Hindi pa ito naipapasok para bilangin.
check-sheets = { $sheets } ang papel ng balota ninyo.
check-yes = Oo, tama ito
check-no = Hindi, may mali
check-read = Basahin ito sa akin
read-back-heading = Ito ang nasa papel ninyo
read-back-line = Galing sa papel ang mga salitang ito.
paper-contest = { $title }
paper-nothing = Walang minarkahan
paper-marked = Minarkahan: { $names }
paper-ranked = { $names }
paper-rank = ika-{ $rank } puwesto, { $name }
paper-doubt = May isang marka rito na hindi malinaw. Pakitingnan po ito.
paper-write-in-read = isinulat na pangalan { $name }
paper-write-in-unread = sulat-kamay o naka-type na pangalan na hindi ko mabasa
paper-write-in-none = blangkong sulatan ng pangalan
differs-heading = Iba ang nasa papel sa pinili ninyo
differs-line = Huwag gamitin ang papel na ito. Hindi ninyo ito kasalanan. Kumuha po ng bagong balota o tumawag ng tauhan.
differs-where = Tingnan: { $contests }
spoil-heading = Kumuha ng bagong balota
spoil-device-heading = Bibigyan kayo ng bagong balota
spoil-line = Huwag ipasok para bilangin ang papel na hawak ninyo. Ibigay ito sa tauhan. Ano ang gusto ninyong gawin?
spoil-left = { $left } pang bagong balota ang puwede ninyong kunin dito.
spoil-none = Nakuha na ninyo ang lahat ng bagong balota na puwedeng i-print ng istasyong ito para sa inyo. Matutulungan kayo ng tauhan.
spoil-keep = Gamitin ang mga pinili ko at itama
spoil-fresh = Magsimula muli nang walang pinili
spoil-cancel = Bumalik, tama ang papel
done-heading = Na-print na ang balota ninyo. Hindi pa ito naipapasok para bilangin.
done-line = Dalhin ang papel ninyo sa kahon ng balota, o sa scanner ng balota. Bibilangin lang ito kapag ipinasok ninyo.
done-sheets = { $sheets ->
    [1] { $sheets } ang papel na ipapasok ninyo.
    [one] { $sheets } ang papel na ipapasok ninyo. Ipasok ang bawat isa.
   *[other] { $sheets } ang papel na ipapasok ninyo. Ipasok ang bawat isa.
}
done-thanks = Walang botong itinatabi ang istasyong ito. Salamat po.
done-leave = Nasa akin na ang papel ko. Tapos na ako.

# Help and the worker.
help-heading = Paano kami makakatulong?
help-explain = Ipaliwanag ang screen na ito
help-worker = Tumawag ng tauhan
explain-heading = Tungkol sa screen na ito
worker-heading = Nakatago ang screen
worker-line = May tinawag nang tauhan. Hindi nawala ang mga pinili ninyo. Walang makakakita sa mga ito.
worker-asked = Humingi ng tulong ang botante.
worker-not-mine = Sabi ng botante: hindi ito ang balota ko.
worker-replacements = Gusto ng botante ng isa pang bagong balota.
worker-device = Kailangan ng tauhan para sa isang aparato.
worker-no-press = Matagal-tagal nang walang pumipindot ng pindutan.
worker-came = Narito na ang tauhan. Nakatago at hindi nawala ang mga pinili ninyo.
worker-return = Bumalik sa kung nasaan ang botante
worker-here = Narito ang tauhan
worker-end = Tauhan: tapusin ang pagbisitang ito
confirm-end-heading = Tapusin ang pagbisitang ito?
confirm-end-line = Buburahin ang lahat ng pinili. Kung may papel na na-print, kailangan itong ilabas.
confirm-end-yes = Oo, tapusin ang pagbisita
confirm-end-no = Hindi, bumalik
ended-heading = Tapos na ang pagbisitang ito
ended-line = Walang anumang itinabi.

# What each screen is for.
explain-opening = Makikita sa screen na ito kung aling balota ang mamarkahan ninyo. Kung hindi ito sa inyo, sabihin dito.
explain-languages = Piliin ang wika na gusto ninyong basahin at pakinggan.
explain-comfort = Palakihin ang letra, palitan ang kulay, o baguhin ang boses.
explain-presses = Dito ninyo mababago kung paano gumagana ang mga switch at pagpindot ninyo.
explain-hide = Itago ang screen kung nakikinig kayo at ayaw ninyong may makakita sa mga pinili ninyo.
explain-practice = Dito ninyo masusubukan kung paano pumili. Hindi ito bibilangin.
explain-how-to = Sinasabi ng mga linyang ito kung paano bumoto.
explain-contest = Ito ay isang paligsahan sa balota ninyo. Piliin ang mga pangalang gusto ninyo. Saka magpatuloy gamit ang Susunod.
explain-limit = Hanggang diyan lang ang puwede ninyong piliin. Bawiin ang isa kung gusto ninyong pumili ng iba.
explain-rank = Dito ninyo bibigyan ng puwesto ang mga tao. Ang ika-1 puwesto ay para sa pinakagusto ninyo.
explain-write-in = Dito kayo magsusulat ng pangalan gamit ang mga pindutan sa screen.
explain-full-text = Ito ang buong teksto ng tanong.
explain-review = Ito ang lahat ng pinili ninyo. Piliin ang isang paligsahan para baguhin ito. Piliin ang I-print kapag handa na kayo.
explain-print = Mamarkahan ng printer ang papel na balota para sa inyo.
explain-fault = Nagkaproblema ang isang aparato. Hindi ninyo ito kasalanan. Matutulungan kayo ng tauhan.
explain-paper = Suriin dito ang papel ninyo. Puwede ninyo itong tingnan, o pakinggan kung ano ang nasa papel.
explain-spoil = Kung mali ang papel ninyo, puwede kayong kumuha ng bago.
explain-done = Handa na ang papel ninyo. Kunin ito at ipasok sa kahon ng balota o sa scanner.
explain-switches = Gamit ang dalawang switch: ang una ay lumilipat sa kasunod. Ang ikalawa ang pumipili nito. Gamit ang isang switch: kusang lumilipat sa kasunod ang istasyon. Pindutin ito kapag narinig ninyo ang gusto ninyo.
explain-keys = Gamit ang mga pindutan: pataas at pababa ang mga arrow. Enter ang pumipili. P ang nagpapahinto at nagpapatuloy sa boses. S ang nagbabaybay ng pangalan.
explain-touch = Gamit ang daliri: pindutin ang gusto ninyo.

# Joining, letters and names.
list-separator = { ", " }
ticket-separator = { " at " }
letter-space = espasyo
letter-hyphen = gitling
letter-apostrophe = kudlit
letter-period = tuldok
letter-a-acute = Á
    .heard = A na may tuldik
letter-e-acute = É
    .heard = E na may tuldik
letter-i-acute = Í
    .heard = I na may tuldik
letter-o-acute = Ó
    .heard = O na may tuldik
letter-u-acute = Ú
    .heard = U na may tuldik
letter-n-tilde = Ñ
    .heard = enye
letter-u-diaeresis = Ü
    .heard = U na may dalawang tuldok
letter-a-diaeresis = Ä
    .heard = A na may dalawang tuldok
letter-e-diaeresis = Ë
    .heard = E na may dalawang tuldok
letter-i-diaeresis = Ï
    .heard = I na may dalawang tuldok
letter-o-diaeresis = Ö
    .heard = O na may dalawang tuldok
letter-c-cedilla = Ç
    .heard = C na may sedilya
