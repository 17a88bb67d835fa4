# What a voter reads and hears, Khmer. A ".heard" attribute is said where it differs from what is read.
# Unreviewed: a certified translator must check it before use.
plain = { $text }

# The bar at the bottom, and long lists.
bar-back = ថយក្រោយ
bar-next = បន្ទាប់
bar-hear-again = ស្តាប់ម្តងទៀត
bar-comfort = ទំហំ និងសំឡេង
bar-help = ជំនួយ
bar-done = រួចរាល់
bar-skip = រំលង
bar-to-review = ត្រឡប់ទៅពិនិត្យ
bar-keep = ទុកជម្រើសខ្ញុំដដែល
more-above = មាន { $count } ទៀតខាងលើ
more-below = មាន { $count } ទៀតខាងក្រោម
state-demo = គំរូបង្ហាញ។ នេះមិនមែនជាសន្លឹកឆ្នោតពិតទេ។
state-test = ការសាកល្បង។ នេះមិនមែនជាសន្លឹកឆ្នោតពិតទេ។
notice-no-speech = សំឡេងបានឈប់។ បានហៅបុគ្គលិកហើយ។ អ្នកអាចបន្តដោយប្រើអេក្រង់។
option-place = ជួរទី { $option } នៃ { $options }។
block-rows = { $first } ដល់ { $last }៖ ពី { $from } ដល់ { $to }។
block-back-one = ត្រឡប់ទៅមួយចុងក្រោយ
block-start = ត្រឡប់ទៅដើមក្រុមនេះ
group = មានទៀត៖ { $items }។

# The screen that a voter has hidden.
cover-line = សូមស្តាប់ដោយប្រើកាស។ ការប៉ះអេក្រង់ត្រូវបានបិទ។
said-covered = អេក្រង់ត្រូវបានលាក់។ ការប៉ះអេក្រង់ត្រូវបានបិទ។
said-hidden = ត្រូវហើយ។ អេក្រង់របស់អ្នកត្រូវបានលាក់។
said-shown = ទេ។ គេអាចមើលឃើញអេក្រង់របស់អ្នក។
screen-is-hidden = បានលាក់អេក្រង់
screen-is-shown = បានបង្ហាញអេក្រង់
hide-needs-voice = សូមបើកសំឡេងអានសិន។ បន្ទាប់មក អ្នកអាចលាក់អេក្រង់បាន។
ask-hide-heading = តើលាក់អេក្រង់ឬទេ?
ask-hide-line = ពេលនោះ ការប៉ះអេក្រង់នឹងត្រូវបិទ។ អ្នកនឹងត្រូវការគ្រាប់ចុច ឬប៊ូតុង។
ask-hide-yes = យល់ព្រម លាក់វា
ask-hide-no = ទេ ទុកដដែល

# Listening to a screen.
listen-heading = ស្តាប់អេក្រង់នេះ
listen-on = ប្រយោគបន្ទាប់
listen-back = ប្រយោគមុន
listen-pause = ផ្អាក
listen-go-on = បន្ត
listen-start = ពីដើម
listen-spell = ប្រកបឈ្មោះ
listen-hidden = តើអេក្រង់ខ្ញុំត្រូវបានលាក់ឬទេ?
nothing-to-spell = នៅទីនេះ គ្មានឈ្មោះសម្រាប់ប្រកបទេ។

# Time.
more-time-heading = តើអ្នកត្រូវការពេលបន្ថែមទេ?
more-time-line = សូមចុចប៊ូតុងណាមួយដើម្បីបន្ត។ ជម្រើសរបស់អ្នកនៅរក្សាទុកដដែល។
more-time-yes = ខ្ញុំត្រូវការពេលបន្ថែម

# Switches and presses.
comfort-hide = លាក់អេក្រង់
comfort-show = បង្ហាញអេក្រង់
comfort-presses = ប៊ូតុង និងការចុច
presses-heading = ប៊ូតុង និងការចុច
presses-line = សូមប្តូរទាំងនេះ បើការចុចរបស់អ្នកមានបញ្ហា។
one-switch = ប្រើប៊ូតុងមួយ
two-switches = ប្រើប៊ូតុងពីរ
has-one-switch = ប៊ូតុងមួយ៖ ម៉ាស៊ីនទៅបន្ទាប់ដោយខ្លួនឯង
has-two-switches = ប៊ូតុងពីរ
scan-faster = ទៅបន្ទាប់លឿនជាងនេះ
scan-slower = ទៅបន្ទាប់យឺតជាងនេះ
scan-step = កម្រិតរង់ចាំ { $step } នៃ { $steps }
accept-longer = រាប់តែការចុចយូរជាងនេះ
accept-shorter = រាប់ការចុចខ្លីជាងនេះដែរ
accept-step = កម្រិតចុចយូរ { $step } នៃ { $steps }
ignore-longer = រង់ចាំយូរជាងនេះរវាងការចុច
ignore-shorter = រង់ចាំតិចជាងនេះរវាងការចុច
ignore-step = កម្រិតរង់ចាំ { $step } នៃ { $steps }
offer-heading = តើធ្វើឱ្យការចុចងាយជាងនេះឬទេ?
offer-accept = ការចុចខ្លះខ្លីណាស់។ ម៉ាស៊ីនអាចរំលងការចុចទាំងនោះបាន។
offer-ignore = ការចុចខ្លះកើតឡើងពីរដង។ ម៉ាស៊ីនអាចរំលងលើកទីពីរបាន។
offer-scan = ម៉ាស៊ីនអាចទៅបន្ទាប់តាមល្បឿនរបស់អ្នក។
offer-yes = យល់ព្រម ធ្វើដូច្នេះ
offer-no = ទេ ទុកដដែល

# Opening.
opening-heading = សូមស្វាគមន៍។ សូមគូសសន្លឹកឆ្នោតរបស់អ្នកនៅទីនេះ។
opening-precinct = មណ្ឌលបោះឆ្នោតរបស់អ្នក៖ { $precinct }
opening-party = គណបក្ស៖ { $party }
opening-how = សូមចុចប៊ូតុងណាមួយដើម្បីបន្ត។
opening-begin = ចាប់ផ្តើម
opening-not-mine = នេះមិនមែនជាសន្លឹកឆ្នោតខ្ញុំទេ

# Languages.
languages-heading = សូមជ្រើសភាសារបស់អ្នក
language-name = ភាសាខ្មែរ
language-chosen = បានជ្រើសភាសាខ្មែរ។
state-chosen = បានជ្រើស
state-not-chosen = មិនបានជ្រើស

# Comfort.
comfort-heading = ទំហំ ពណ៌ និងសំឡេង
comfort-line = អ្នកអាចប្តូរវាបានគ្រប់ពេល។ ជម្រើសរបស់អ្នកនឹងមិនបាត់ទេ។
comfort-larger = ពង្រីកអក្សរ
comfort-smaller = បង្រួមអក្សរ
comfort-colours = ប្តូរពណ៌
comfort-speech-on = បើកសំឡេងអាន
comfort-speech-off = បិទសំឡេងអាន
comfort-faster = អានលឿនជាងនេះ
comfort-slower = អានយឺតជាងនេះ
comfort-louder = បន្ថែមសំឡេង
comfort-softer = បន្ថយសំឡេង
comfort-language = ប្តូរភាសា
size-small = អក្សរតូច
size-medium = អក្សរមធ្យម
size-large = អក្សរធំ
size-largest = អក្សរធំបំផុត
size-is-most = អេក្រង់នេះមិនអាចបង្ហាញអក្សរធំជាងនេះបានទេ។
palette-dark-on-light = អក្សរខ្មៅលើផ្ទៃស
palette-light-on-dark = អក្សរសលើផ្ទៃខ្មៅ
palette-yellow-on-dark = អក្សរលឿងលើផ្ទៃខ្មៅ
palette-low-contrast = ពណ៌ស្រទន់
pace-step = កម្រិតល្បឿន { $step } នៃ { $steps }
loudness-step = កម្រិតសំឡេង { $step } នៃ { $steps }
speech-is-on = បានបើកសំឡេងអាន
speech-is-off = បានបិទសំឡេងអាន

# Practice and how to vote.
practice-heading = សូមសាកល្បងសិន
practice-line = តើអ្នកចូលចិត្តផ្លែឈើមួយណា? សូមជ្រើសមួយ។ វាមិនមាននៅលើសន្លឹកឆ្នោតរបស់អ្នកទេ។
practice-first = ផ្លែប៉ោម
practice-second = ផ្លែចេក
practice-third = ផ្លែឆឺរី
practice-full = នៅទីនេះ អ្នកអាចជ្រើសបានតែមួយ។ សូមដកមួយដែលអ្នកបានជ្រើសចេញសិន។
practice-chosen = បានជ្រើស។ ដើម្បីដកចេញ សូមជ្រើសវាម្តងទៀត។
practice-undone = លែងជ្រើសវាហើយ។
how-to-heading = របៀបបោះឆ្នោត
how-to-choose = សូមជ្រើសឈ្មោះមួយ។ រង្វង់ពងក្រពើក្បែរឈ្មោះនោះនឹងទៅជាពណ៌ខ្មៅ។
how-to-undo = ដើម្បីដកចេញ សូមជ្រើសវាម្តងទៀត។
how-to-leave = អ្នកអាចទុកការប្រកួតប្រជែងណាមួយឱ្យនៅទទេបាន។
how-to-review = នៅចុងបញ្ចប់ អ្នកអាចមើលជម្រើសទាំងអស់របស់អ្នក ហើយប្តូរវាបាន។
how-to-paper = បន្ទាប់មក អ្នកបោះពុម្ពសន្លឹកឆ្នោតរបស់អ្នកលើក្រដាស ហើយពិនិត្យវា។

# A contest.
contest-place = ការប្រកួតប្រជែងទី { $contest } នៃ { $contests }
limit-one = បោះឆ្នោតជ្រើសតែ 1
limit-many = បោះឆ្នោតជ្រើសបានដល់ { $limit }
limit-any = បោះឆ្នោតជ្រើសប៉ុន្មានក៏បាន
limit-ranks = រៀបលំដាប់បានដល់ { $limit }។ ជម្រើសទី 1 គឺជាជម្រើសដែលអ្នកចូលចិត្តជាងគេ។
limit-measure = ជ្រើសចម្លើយតែ 1
count-chosen = { $chosen ->
    [0] អ្នកមិនបានជ្រើសអ្វីទេ។
   *[other] អ្នកបានជ្រើស { $chosen } ក្នុងចំណោម { $limit }។
} { $left ->
    [0] អ្នកមិនអាចជ្រើសបានទៀតទេ។
   *[other] អ្នកអាចជ្រើសបាន { $left } ទៀត។
}
count-ranked = { $chosen ->
    [0] អ្នកមិនបានរៀបលំដាប់អ្វីទេ។
   *[other] អ្នកបានរៀបលំដាប់ { $chosen } ក្នុងចំណោម { $limit }។
} { $left ->
    [0] អ្នកមិនអាចរៀបលំដាប់បានទៀតទេ។
   *[other] អ្នកអាចរៀបលំដាប់បាន { $left } ទៀត។
}
affects-party = ជម្រើសរបស់អ្នកនៅទីនេះ ក៏រាប់ក្នុងការប្រកួតប្រជែងចំនួន { $count } ផ្សេងទៀតដែរ សម្រាប់បេក្ខជនរបស់គណបក្សនោះ។ អ្នកនៅតែអាចជ្រើសនៅទីនោះបាន។
affects-activation = ចម្លើយរបស់អ្នកអាចសម្រេចថា ការប្រកួតប្រជែងតទៅនេះត្រូវរាប់ ឬមិនត្រូវរាប់៖ { $contests }។ អ្នកនៅតែអាចបោះឆ្នោតនៅទីនោះបាន។
read-full-text = អានអត្ថបទពេញ
full-text-heading = អត្ថបទពេញ៖ { $title }
write-in-row = សរសេរឈ្មោះបន្ថែម
write-in-named = សរសេរបន្ថែម៖ { $name }
write-in-blank = សរសេរបន្ថែម គ្មានឈ្មោះ
state-rank = ជម្រើសទី { $rank }
state-no-rank = គ្មានលំដាប់
said-chosen = បានជ្រើស៖ { $name }។
said-undone = លែងជ្រើស៖ { $name }។
said-ranked = { $name } ឥឡូវជាជម្រើសទី { $rank }។

# The limit.
limit-heading = អ្នកបានជ្រើស { $limit } ហើយ។ នេះជាចំនួនច្រើនបំផុតដែលអ្នកអាចជ្រើសបាននៅទីនេះ។
limit-line = ដើម្បីជ្រើស { $wanted } សូមដកមួយក្នុងចំណោមទាំងនេះចេញសិន។
undo-option = ដក { $name } ចេញ

# Ranks.
rank-pick-heading = តើ { $name } ជាជម្រើសទីប៉ុន្មាន?
rank-free = ជម្រើសទី { $rank }
rank-taken = ជម្រើសទី { $rank } គឺ { $name }។
rank-change-heading = { $name } ជាជម្រើសទី { $rank } របស់អ្នក
rank-undo = ដកជម្រើសនេះចេញ
rank-move = ប្តូរទៅជាជម្រើសទី { $rank }
lower-heading = តើរំកិលជម្រើសខាងក្រោមរបស់អ្នកឡើងលើឬទេ?
lower-line = អ្នកកំពុងដកជម្រើសមួយចេញ។ ជម្រើសដែលនៅខាងក្រោមវាអាចរំកិលឡើងលើ ឬនៅកន្លែងដដែល។
lower-move-up = រំកិលឡើងលើ
lower-stay = ទុកនៅដដែល

# Writing in.
write-in-heading = សរសេរឈ្មោះបន្ថែម
write-in-line = សូមសរសេរតែឈ្មោះដែលមិនមានក្នុងបញ្ជី។
write-in-so-far = មកដល់ពេលនេះ៖ { $name }
write-in-nothing = មិនទាន់បានសរសេរអ្វីទេ។
keys-row = { $first } ដល់ { $last }
key-name = { $letter }
key-written = { $letter }
key-refused = ដាក់ { $letter } ថែមមិនបានទេ។ កន្លែងសរសេរឈ្មោះពេញហើយ។
write-in-delete = លុបអក្សរចុងក្រោយ
write-in-deleted = បានលុប៖ { $letter }
write-in-no-letter = គ្មានអក្សរសម្រាប់លុបទេ។
write-in-spell = ស្តាប់អក្សរនីមួយៗ
write-in-spelled = { $letters }
write-in-finish = សរសេរឈ្មោះរួចហើយ
blank-heading = អ្នកមិនបានសរសេរឈ្មោះទេ
blank-line = ការសរសេរបន្ថែមដែលគ្មានឈ្មោះ អាចនឹងមិនត្រូវរាប់ទេ។
blank-write = សរសេរឈ្មោះ
blank-keep = ទុកសញ្ញាគូសដដែល ដោយគ្មានឈ្មោះ
blank-undo = មិនប្រើការសរសេរបន្ថែម
write-in-change-heading = អ្នកបានសរសេរឈ្មោះបន្ថែម
write-in-edit = ប្តូរឈ្មោះ
write-in-undo = ដកការសរសេរបន្ថែមចេញ

# Review and print.
review-heading = សូមពិនិត្យជម្រើសរបស់អ្នក
review-complete = អ្នកបានធ្វើរួចការប្រកួតប្រជែងចំនួន { $complete } ក្នុងចំណោម { $contests }។
review-left = អ្នកនៅអាចជ្រើសបានទៀត ក្នុងការប្រកួតប្រជែងចំនួន { $left }។ យើងដាក់វានៅមុនគេ។ បើអ្នកចង់ទុកដូច្នេះ ក៏បានដែរ។
review-how = ដើម្បីប្តូរជម្រើសណាមួយ សូមជ្រើសការប្រកួតប្រជែងនោះ។
review-title = { $contest }. { $title }
review-nothing = មិនបានជ្រើសអ្វីទេ
review-chosen = { $names }
review-more-left = អ្នកអាចជ្រើសបាន { $left } ទៀត។
review-full = រួចរាល់។
review-ranked = ជម្រើសទី { $rank }៖ { $name }
review-print = បោះពុម្ព
ask-print-heading = តើបោះពុម្ពសន្លឹកឆ្នោតរបស់អ្នកឥឡូវនេះឬទេ?
ask-print-line = ក្រោយពេលបោះពុម្ព អ្នកមិនអាចកែអ្វីលើក្រដាសនេះបានទេ។ អ្នកនឹងពិនិត្យវា មុនពេលដាក់វាចូលហិបឆ្នោត។
ask-print-left = អ្នកនៅអាចជ្រើសបានទៀត ក្នុងការប្រកួតប្រជែងចំនួន { $left }។
ask-print-yes = យល់ព្រម បោះពុម្ពសន្លឹកឆ្នោតខ្ញុំ
ask-print-no = ទេ ត្រឡប់ទៅជម្រើសខ្ញុំវិញ
printing-heading = កំពុងបោះពុម្ពសន្លឹកឆ្នោតរបស់អ្នក
printing-line = សូមរង់ចាំ។
print-fault-heading = សន្លឹកឆ្នោតរបស់អ្នកមិនបានបោះពុម្ពទេ
fault-paper = ម៉ាស៊ីនបោះពុម្ពគ្មានក្រដាសទេ។
fault-jam = ក្រដាសជាប់គាំងក្នុងម៉ាស៊ីនបោះពុម្ព។
fault-offline = ម៉ាស៊ីនបោះពុម្ពមិនឆ្លើយតបទេ។
fault-not-made = មិនអាចរៀបចំសន្លឹកឆ្នោតសម្រាប់ម៉ាស៊ីនបោះពុម្ពបានទេ។
fault-kept = នេះមិនមែនជាកំហុសរបស់អ្នកទេ។ ជម្រើសរបស់អ្នកនៅរក្សាទុកដដែល។ បុគ្គលិកអាចជួយអ្នកបាន។
print-again = ព្យាយាមបោះពុម្ពម្តងទៀត
call-worker = ហៅបុគ្គលិក

# The paper.
reading-heading = ម៉ាស៊ីនកំពុងអានក្រដាសរបស់អ្នក
reading-line = សូមរង់ចាំ។
read-fault-heading = មិនអាចអានក្រដាសរបស់អ្នកបានទេ
fault-no-sheet = រកមិនឃើញសន្លឹកក្រដាសទេ។
fault-unreadable = សញ្ញាគូសលើសន្លឹកក្រដាសមិនច្បាស់ទេ។
fault-other-ballot = នេះជាសន្លឹកក្រដាសរបស់សន្លឹកឆ្នោតផ្សេង។
fault-print-differs = មានអ្វីមួយលើសន្លឹកក្រដាសនេះមិនត្រឹមត្រូវទេ។ សូមកុំប្រើសន្លឹកក្រដាសនេះ។
read-again = អានក្រដាសម្តងទៀត
new-sheet = យកសន្លឹកឆ្នោតថ្មី
check-heading = តើសន្លឹកឆ្នោតក្រដាសរបស់អ្នកត្រឹមត្រូវទេ?
check-line = សូមមើលគ្រប់ការប្រកួតប្រជែងលើក្រដាស ឬឱ្យម៉ាស៊ីនអានក្រដាសឱ្យអ្នកស្តាប់។ វាមិនទាន់បានដាក់ចូលហិបឆ្នោតទេ។
check-sheets = សន្លឹកឆ្នោតរបស់អ្នកមានក្រដាស { $sheets } សន្លឹក។
check-yes = ត្រឹមត្រូវហើយ
check-no = ទេ មានអ្វីមួយខុស
check-read = អានឱ្យខ្ញុំស្តាប់
read-back-heading = នេះជាអ្វីដែលមានលើក្រដាសរបស់អ្នក
read-back-line = ពាក្យទាំងនេះអានចេញពីក្រដាស។
paper-contest = { $title }
paper-nothing = គ្មានសញ្ញាគូសទេ
paper-marked = បានគូស៖ { $names }
paper-ranked = { $names }
paper-rank = ជម្រើសទី { $rank }, { $name }
paper-doubt = នៅទីនេះ មានសញ្ញាគូសមួយមិនច្បាស់។ សូមមើលវា។
paper-write-in-read = សរសេរបន្ថែម { $name }
paper-write-in-unread = ឈ្មោះសរសេរដោយដៃ ឬវាយដោយម៉ាស៊ីន ដែលខ្ញុំអានមិនបាន
paper-write-in-none = សរសេរបន្ថែម គ្មានឈ្មោះ
differs-heading = ក្រដាសមិនដូចអ្វីដែលអ្នកបានជ្រើសទេ
differs-line = សូមកុំប្រើក្រដាសនេះ។ នេះមិនមែនជាកំហុសរបស់អ្នកទេ។ សូមយកសន្លឹកឆ្នោតថ្មី ឬហៅបុគ្គលិក។
differs-where = សូមមើល៖ { $contests }
spoil-heading = យកសន្លឹកឆ្នោតថ្មី
spoil-device-heading = អ្នកនឹងបានសន្លឹកឆ្នោតថ្មី
spoil-line = សូមកុំដាក់ក្រដាសដែលអ្នកមាន ចូលហិបឆ្នោត។ សូមប្រគល់វាឱ្យបុគ្គលិក។ តើអ្នកចង់ធ្វើអ្វី?
spoil-left = នៅទីនេះ អ្នកអាចយកសន្លឹកឆ្នោតថ្មីបាន { $left } ដងទៀត។
spoil-none = អ្នកបានយកសន្លឹកឆ្នោតថ្មីអស់ចំនួនដែលម៉ាស៊ីននេះអាចបោះពុម្ពឱ្យអ្នកហើយ។ បុគ្គលិកអាចជួយអ្នកបាន។
spoil-keep = ទុកជម្រើសខ្ញុំ ហើយកែវា
spoil-fresh = ចាប់ផ្តើមម្តងទៀតដោយគ្មានជម្រើស
spoil-cancel = ត្រឡប់វិញ ក្រដាសត្រឹមត្រូវហើយ
done-heading = សន្លឹកឆ្នោតរបស់អ្នកបានបោះពុម្ពហើយ។ វាមិនទាន់បានដាក់ចូលហិបឆ្នោតទេ។
done-line = សូមយកក្រដាសរបស់អ្នកទៅហិបឆ្នោត ឬម៉ាស៊ីនស្កេនសន្លឹកឆ្នោត។ វានឹងត្រូវរាប់ តែពេលអ្នកដាក់វាចូលប៉ុណ្ណោះ។
done-sheets = { $sheets ->
    [1] អ្នកមានក្រដាស { $sheets } សន្លឹកត្រូវដាក់ចូល។
   *[other] អ្នកមានក្រដាស { $sheets } សន្លឹកត្រូវដាក់ចូល។ សូមដាក់ចូលទាំងអស់។
}
done-thanks = ម៉ាស៊ីននេះមិនរក្សាទុកសំឡេងឆ្នោតទេ។ សូមអរគុណ។
done-leave = ខ្ញុំមានក្រដាសរបស់ខ្ញុំហើយ។ ខ្ញុំរួចរាល់ហើយ។

# Help and the worker.
help-heading = តើយើងអាចជួយអ្វីអ្នកបាន?
help-explain = ពន្យល់អេក្រង់នេះ
help-worker = ហៅបុគ្គលិក
explain-heading = អំពីអេក្រង់នេះ
worker-heading = អេក្រង់ត្រូវបានលាក់
worker-line = បានហៅបុគ្គលិកហើយ។ ជម្រើសរបស់អ្នកនៅរក្សាទុកដដែល។ គ្មាននរណាអាចមើលឃើញវាទេ។
worker-asked = អ្នកបោះឆ្នោតបានសុំជំនួយ។
worker-not-mine = អ្នកបោះឆ្នោតនិយាយថា៖ នេះមិនមែនជាសន្លឹកឆ្នោតខ្ញុំទេ។
worker-replacements = អ្នកបោះឆ្នោតចង់បានសន្លឹកឆ្នោតថ្មីមួយទៀត។
worker-device = ឧបករណ៍មួយត្រូវការបុគ្គលិកជួយ។
worker-no-press = គ្មាននរណាចុចប៊ូតុងមួយរយៈហើយ។
worker-came = បុគ្គលិកមកដល់ហើយ។ ជម្រើសរបស់អ្នកត្រូវបានលាក់ ហើយនៅរក្សាទុកដដែល។
worker-return = ត្រឡប់ទៅអេក្រង់របស់អ្នកបោះឆ្នោតវិញ
worker-here = បុគ្គលិកនៅទីនេះ
worker-end = បុគ្គលិក៖ បញ្ចប់ការប្រើលើកនេះ
confirm-end-heading = តើបញ្ចប់ការប្រើលើកនេះឬទេ?
confirm-end-line = ជម្រើសទាំងអស់នឹងត្រូវលុប។ បើបានបោះពុម្ពសន្លឹកក្រដាស ត្រូវយកវាចេញ។
confirm-end-yes = យល់ព្រម បញ្ចប់ការប្រើលើកនេះ
confirm-end-no = ទេ ត្រឡប់វិញ
ended-heading = ការប្រើលើកនេះចប់ហើយ
ended-line = មិនបានរក្សាទុកអ្វីទេ។

# What each screen is for.
explain-opening = អេក្រង់នេះបង្ហាញសន្លឹកឆ្នោតដែលអ្នកនឹងគូស។ បើវាមិនមែនជារបស់អ្នកទេ សូមប្រាប់នៅទីនេះ។
explain-languages = សូមជ្រើសភាសាដែលអ្នកចង់អាន និងស្តាប់។
explain-comfort = នៅទីនេះ អ្នកអាចពង្រីកអក្សរ ប្តូរពណ៌ ឬប្តូរសំឡេងអាន។
explain-presses = នៅទីនេះ អ្នកអាចប្តូររបៀបប្រើប៊ូតុង និងការចុចរបស់អ្នក។
explain-hide = សូមលាក់អេក្រង់ បើអ្នកស្តាប់ ហើយមិនចង់ឱ្យនរណាមើលឃើញជម្រើសរបស់អ្នក។
explain-practice = នៅទីនេះ អ្នកអាចសាកល្បងរបៀបជ្រើស។ វាមិនត្រូវរាប់ទេ។
explain-how-to = ឃ្លាទាំងនេះប្រាប់អ្នកពីរបៀបបោះឆ្នោត។
explain-contest = នេះជាការប្រកួតប្រជែងមួយលើសន្លឹកឆ្នោតរបស់អ្នក។ សូមជ្រើសឈ្មោះដែលអ្នកចង់បាន។ រួចហើយ សូមជ្រើស «បន្ទាប់» ដើម្បីបន្ត។
explain-limit = អ្នកបានជ្រើសគ្រប់ចំនួនដែលអាចជ្រើសបានហើយ។ បើអ្នកចង់ជ្រើសមួយផ្សេងទៀត សូមដកមួយចេញ។
explain-rank = នៅទីនេះ អ្នករៀបលំដាប់បេក្ខជន។ ជម្រើសទី 1 គឺជាជម្រើសដែលអ្នកចូលចិត្តជាងគេ។
explain-write-in = នៅទីនេះ អ្នកសរសេរឈ្មោះដោយប្រើគ្រាប់ចុចលើអេក្រង់។
explain-full-text = នេះជាអត្ថបទពេញនៃសំណួរ។
explain-review = នេះជាជម្រើសទាំងអស់របស់អ្នក។ ដើម្បីប្តូរ សូមជ្រើសការប្រកួតប្រជែងមួយ។ ពេលអ្នករួចរាល់ សូមជ្រើស «បោះពុម្ព»។
explain-print = ម៉ាស៊ីនបោះពុម្ពគូសសន្លឹកឆ្នោតក្រដាសជូនអ្នក។
explain-fault = ឧបករណ៍មួយមានបញ្ហា។ នេះមិនមែនជាកំហុសរបស់អ្នកទេ។ បុគ្គលិកអាចជួយអ្នកបាន។
explain-paper = សូមពិនិត្យក្រដាសរបស់អ្នកនៅទីនេះ។ អ្នកអាចមើលវា ឬស្តាប់អ្វីដែលមានលើវា។
explain-spoil = បើក្រដាសរបស់អ្នកមិនត្រឹមត្រូវ អ្នកអាចយកថ្មីបាន។
explain-done = ក្រដាសរបស់អ្នករួចរាល់ហើយ។ សូមយកវាទៅដាក់ចូលហិបឆ្នោត ឬម៉ាស៊ីនស្កេន។
explain-switches = បើប្រើប៊ូតុងពីរ៖ ប៊ូតុងទីមួយទៅកាន់ចំណុចបន្ទាប់។ ប៊ូតុងទីពីរជ្រើសវា។ បើប្រើប៊ូតុងមួយ៖ ម៉ាស៊ីនទៅបន្ទាប់ដោយខ្លួនឯង។ សូមចុច ពេលអ្នកឮអ្វីដែលអ្នកចង់បាន។
explain-keys = បើប្រើគ្រាប់ចុច៖ គ្រាប់ព្រួញសម្រាប់ឡើងលើ និងចុះក្រោម។ គ្រាប់អេនធើ (Enter) សម្រាប់ជ្រើស។ គ្រាប់ P សម្រាប់បញ្ឈប់ និងបន្តសំឡេងអាន។ គ្រាប់ S សម្រាប់ប្រកបឈ្មោះ។
explain-touch = បើប្រើអេក្រង់ប៉ះ៖ សូមប៉ះអ្វីដែលអ្នកចង់បាន។

# Joining, letters and names.
list-separator = { ", " }
ticket-separator = { " និង " }
letter-space = ចន្លោះ
letter-hyphen = គំនូសខ្លី
letter-apostrophe = ក្បៀសលើ
letter-period = ចំណុច
letter-a-acute = Á
    .heard = អេ មានសញ្ញាសង្កត់
letter-e-acute = É
    .heard = អ៊ី មានសញ្ញាសង្កត់
letter-i-acute = Í
    .heard = អាយ មានសញ្ញាសង្កត់
letter-o-acute = Ó
    .heard = អូ មានសញ្ញាសង្កត់
letter-u-acute = Ú
    .heard = យូ មានសញ្ញាសង្កត់
letter-n-tilde = Ñ
    .heard = អិន មានសញ្ញារលក
letter-u-diaeresis = Ü
    .heard = យូ មានចំណុចពីរ
letter-a-diaeresis = Ä
    .heard = អេ មានចំណុចពីរ
letter-e-diaeresis = Ë
    .heard = អ៊ី មានចំណុចពីរ
letter-i-diaeresis = Ï
    .heard = អាយ មានចំណុចពីរ
letter-o-diaeresis = Ö
    .heard = អូ មានចំណុចពីរ
letter-c-cedilla = Ç
    .heard = ស៊ី មានកន្ទុយ
