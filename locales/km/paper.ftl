# What stands on the paper ballot beside the election's own texts, Khmer.
# Unreviewed: a certified translator must check it before use.
paper-style = ប្រភេទសន្លឹកឆ្នោត { $style }
paper-how-heading = របៀបគូសសន្លឹកឆ្នោតនេះ
paper-how-fill = សូមផាត់រង្វង់ពងក្រពើក្បែរជម្រើសរបស់អ្នកឱ្យពេញ។ សូមប្រើប៊ិចខ្មៅ ឬប៊ិចខៀវ។
paper-how-write = ដើម្បីបោះឆ្នោតឱ្យមនុស្សដែលមិនមានឈ្មោះក្នុងបញ្ជី សូមផាត់រង្វង់ពងក្រពើឱ្យពេញ ហើយសរសេរឈ្មោះនៅលើបន្ទាត់។
paper-how-mistake = បើអ្នកធ្វើខុស សូមសុំសន្លឹកឆ្នោតថ្មី។
paper-limit-one = បោះឆ្នោតជ្រើសតែ 1
paper-limit-many = បោះឆ្នោតជ្រើសបានដល់ { $limit }
paper-limit-any = បោះឆ្នោតជ្រើសប៉ុន្មានក៏បាន
paper-limit-ranks = រៀបលំដាប់បានដល់ { $limit }។ ជួរឈរទី 1 សម្រាប់ជម្រើសដែលអ្នកចូលចិត្តជាងគេ។ ក្នុងជួរដេកនីមួយៗ និងជួរឈរនីមួយៗ សូមផាត់រង្វង់ពងក្រពើមិនឱ្យលើសពីមួយ។
paper-limit-measure = បោះឆ្នោតជ្រើសចម្លើយតែ 1
paper-affects-party = ការបោះឆ្នោតនៅទីនេះ ក៏រាប់ក្នុងការប្រកួតប្រជែងចំនួន { $count } ផ្សេងទៀតដែរ សម្រាប់បេក្ខជនរបស់គណបក្សនោះ។
paper-affects-activation = ចម្លើយរបស់អ្នកអាចសម្រេចថា ការប្រកួតប្រជែងតទៅនេះត្រូវរាប់ ឬមិនត្រូវរាប់៖ { $contests }។
paper-rank-heading = { $rank }
paper-write-in = សរសេរបន្ថែម
paper-continued = { $title } (បន្ត)
paper-turn-over = សូមមើលខាងក្រោយ។
paper-next-sheet = សូមបន្តទៅសន្លឹកទី { $sheet }។
paper-last = ចប់សន្លឹកឆ្នោត។
paper-sheet = សន្លឹកទី { $sheet } នៃ { $sheets }
paper-date = ថ្ងៃទី { $day } ខែ{ $month ->
    [1] មករា
    [2] កុម្ភៈ
    [3] មីនា
    [4] មេសា
    [5] ឧសភា
    [6] មិថុនា
    [7] កក្កដា
    [8] សីហា
    [9] កញ្ញា
    [10] តុលា
    [11] វិច្ឆិកា
   *[other] ធ្នូ
} ឆ្នាំ { $year }
paper-state-test = សន្លឹកឆ្នោតសាកល្បង
paper-state-demo = គំរូបង្ហាញ។ មិនមែនជាសន្លឹកឆ្នោតទេ។
