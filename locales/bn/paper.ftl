# What stands on the paper ballot beside the election's own texts, Bengali.
# Unreviewed: a certified translator must check it before use.
paper-style = ব্যালটের ধরন { $style }
paper-how-heading = এই ব্যালটে কীভাবে দাগ দেবেন
paper-how-fill = আপনার পছন্দের পাশের ডিম্বাকার ঘরটি পুরো ভরাট করুন। কালো বা নীল কলম ব্যবহার করুন।
paper-how-write = তালিকায় নেই এমন কাউকে ভোট দিতে চাইলে ডিম্বাকার ঘরটি ভরাট করুন এবং রেখার উপরে নামটি লিখুন।
paper-how-mistake = ভুল হলে নতুন ব্যালট চেয়ে নিন।
paper-limit-one = 1টি বেছে ভোট দিন
paper-limit-many = সর্বোচ্চ { $limit }টি বেছে ভোট দিন
paper-limit-any = যতগুলো ইচ্ছা বেছে ভোট দিন
paper-limit-ranks = সর্বোচ্চ { $limit }টি পছন্দের ক্রম দিন। যাঁকে সবচেয়ে বেশি চান, তাঁর জন্য 1 নম্বর কলাম। প্রতিটি সারিতে ও প্রতিটি কলামে একটির বেশি ডিম্বাকার ঘর ভরাট করবেন না।
paper-limit-measure = 1টি উত্তর বেছে ভোট দিন
paper-affects-party = { $count ->
    [one] এখানে দেওয়া ভোট আরও { $count }টি প্রতিযোগিতায় ওই দলের প্রার্থীদের জন্যও গোনা হবে।
   *[other] এখানে দেওয়া ভোট আরও { $count }টি প্রতিযোগিতায় ওই দলের প্রার্থীদের জন্যও গোনা হবে।
}
paper-affects-activation = এই প্রতিযোগিতার ভোট গোনা হবে কি না, তা আপনার উত্তরে ঠিক হতে পারে: { $contests }।
paper-rank-heading = { $rank }
paper-write-in = নাম লেখার ঘর
paper-continued = { $title } (চলছে)
paper-turn-over = পাতা উল্টান।
paper-next-sheet = { $sheet } নম্বর পাতায় যান।
paper-last = ব্যালট শেষ।
paper-sheet = পাতা { $sheet }, মোট { $sheets }টি
paper-date = { $day } { $month ->
    [1] জানুয়ারি
    [2] ফেব্রুয়ারি
    [3] মার্চ
    [4] এপ্রিল
    [5] মে
    [6] জুন
    [7] জুলাই
    [8] আগস্ট
    [9] সেপ্টেম্বর
    [10] অক্টোবর
    [11] নভেম্বর
   *[other] ডিসেম্বর
}, { $year }
paper-state-test = পরীক্ষামূলক ব্যালট
paper-state-demo = দেখানোর জন্য। ব্যালট নয়।
