# What a voter reads and hears, Bengali. A ".heard" attribute is said where it differs from what is read.
# Unreviewed: a certified translator must check it before use.
plain = { $text }

# The bar at the bottom, and long lists.
bar-back = পিছনে
bar-next = পরের
bar-hear-again = আবার শুনুন
bar-comfort = আকার ও শব্দ
bar-help = সাহায্য
bar-done = হয়েছে
bar-skip = এড়িয়ে যান
bar-to-review = যাচাইয়ে ফিরুন
bar-keep = আমার পছন্দ রাখুন
more-above = { $count ->
    [one] উপরে আরও { $count }টি
   *[other] উপরে আরও { $count }টি
}
more-below = { $count ->
    [one] নিচে আরও { $count }টি
   *[other] নিচে আরও { $count }টি
}
state-demo = দেখানোর জন্য। এটি আসল ব্যালট নয়।
state-test = পরীক্ষার জন্য। এটি আসল ব্যালট নয়।
notice-no-speech = শব্দ বন্ধ হয়ে গেছে। একজন ভোটকর্মীকে ডাকা হয়েছে। আপনি স্ক্রিন দেখে এগিয়ে যেতে পারেন।
option-place = বিকল্প { $option }, মোট { $options }টি।
block-rows = { $first } থেকে { $last }: { $from } থেকে { $to }।
block-back-one = শেষেরটিতে ফিরুন
block-start = এগুলোর শুরুতে ফিরুন
group = আরও আছে: { $items }।

# The screen that a voter has hidden.
cover-line = হেডফোনে শুনুন। স্ক্রিন ছুঁলে কাজ হবে না।
said-covered = স্ক্রিন ঢাকা আছে। ছুঁলে কাজ হবে না।
said-hidden = হ্যাঁ। আপনার স্ক্রিন ঢাকা আছে।
said-shown = না। আপনার স্ক্রিন দেখা যাচ্ছে।
screen-is-hidden = স্ক্রিন ঢাকা আছে
screen-is-shown = স্ক্রিন দেখা যাচ্ছে
hide-needs-voice = আগে কণ্ঠ চালু করুন। তারপর স্ক্রিন ঢাকতে পারবেন।
ask-hide-heading = স্ক্রিন ঢাকবেন?
ask-hide-line = তখন স্ক্রিন ছুঁলে কাজ হবে না। আপনার বোতাম বা সুইচ লাগবে।
ask-hide-yes = হ্যাঁ, ঢাকুন
ask-hide-no = না, দেখা যাক

# Listening to a screen.
listen-heading = এই স্ক্রিন শুনুন
listen-on = পরের বাক্য
listen-back = আগের বাক্য
listen-pause = থামান
listen-go-on = চালিয়ে যান
listen-start = শুরু থেকে
listen-spell = নামের বানান শুনুন
listen-hidden = আমার স্ক্রিন কি ঢাকা আছে?
nothing-to-spell = এখানে বানান করার মতো কোনো নাম নেই।

# Time.
more-time-heading = আপনার কি আরও সময় লাগবে?
more-time-line = এগিয়ে যেতে যেকোনো বোতাম চাপুন। আপনার পছন্দ রাখা আছে।
more-time-yes = হ্যাঁ, আমার আরও সময় লাগবে

# Switches and presses.
comfort-hide = স্ক্রিন ঢাকুন
comfort-show = স্ক্রিন দেখান
comfort-presses = সুইচ ও চাপ দেওয়া
presses-heading = সুইচ ও চাপ দেওয়া
presses-line = চাপ ঠিকমতো না পড়লে এগুলো বদলান।
one-switch = একটি সুইচ ব্যবহার করুন
two-switches = দুটি সুইচ ব্যবহার করুন
has-one-switch = একটি সুইচ: যন্ত্র নিজেই পরেরটিতে যায়
has-two-switches = দুটি সুইচ
scan-faster = আরও দ্রুত এগোন
scan-slower = আরও ধীরে এগোন
scan-step = অপেক্ষা { $step }, মোট { $steps } ধাপ
accept-longer = শুধু আরও লম্বা চাপ গুনুন
accept-shorter = আরও ছোট চাপও গুনুন
accept-step = চাপের সময় { $step }, মোট { $steps } ধাপ
ignore-longer = দুই চাপের মাঝে বেশি অপেক্ষা
ignore-shorter = দুই চাপের মাঝে কম অপেক্ষা
ignore-step = অপেক্ষা { $step }, মোট { $steps } ধাপ
offer-heading = চাপ দেওয়া সহজ করবেন?
offer-accept = কিছু চাপ খুব ছোট ছিল। যন্ত্রটি সেগুলো বাদ দিতে পারে।
offer-ignore = কিছু চাপ দুবার পড়েছে। যন্ত্রটি দ্বিতীয়টি বাদ দিতে পারে।
offer-scan = যন্ত্রটি আপনার গতিতে এগোতে পারে।
offer-yes = হ্যাঁ, তাই করুন
offer-no = না, যেমন আছে রাখুন

# Opening.
opening-heading = স্বাগতম। এখানে আপনার ব্যালটে দাগ দিন।
opening-precinct = আপনার ভোট এলাকা: { $precinct }
opening-party = দল: { $party }
opening-how = এগিয়ে যেতে যেকোনো বোতাম চাপুন।
opening-begin = শুরু করুন
opening-not-mine = এটি আমার ব্যালট নয়

# Languages.
languages-heading = আপনার ভাষা বেছে নিন
language-name = বাংলা
language-chosen = বাংলা বেছে নেওয়া হয়েছে।
state-chosen = বেছে নেওয়া হয়েছে
state-not-chosen = বেছে নেওয়া হয়নি

# Comfort.
comfort-heading = আকার, রং ও শব্দ
comfort-line = এগুলো যেকোনো সময় বদলাতে পারেন। আপনার পছন্দ হারাবে না।
comfort-larger = অক্ষর বড় করুন
comfort-smaller = অক্ষর ছোট করুন
comfort-colours = রং বদলান
comfort-speech-on = কণ্ঠ চালু করুন
comfort-speech-off = কণ্ঠ বন্ধ করুন
comfort-faster = আরও দ্রুত বলুন
comfort-slower = আরও ধীরে বলুন
comfort-louder = আওয়াজ বাড়ান
comfort-softer = আওয়াজ কমান
comfort-language = ভাষা বদলান
size-small = ছোট অক্ষর
size-medium = মাঝারি অক্ষর
size-large = বড় অক্ষর
size-largest = সবচেয়ে বড় অক্ষর
size-is-most = এই পর্দা এর চেয়ে বড় অক্ষর দেখাতে পারে না।
palette-dark-on-light = সাদার উপর কালো
palette-light-on-dark = কালোর উপর সাদা
palette-yellow-on-dark = কালোর উপর হলুদ
palette-low-contrast = মৃদু রং
pace-step = গতি { $step }, মোট { $steps } ধাপ
loudness-step = আওয়াজ { $step }, মোট { $steps } ধাপ
speech-is-on = কণ্ঠ চালু
speech-is-off = কণ্ঠ বন্ধ

# Practice and how to vote.
practice-heading = আগে চেষ্টা করে দেখুন
practice-line = কোন ফল আপনার ভালো লাগে? একটি বেছে নিন। এই প্রশ্ন আপনার ব্যালটে নেই।
practice-first = আপেল
practice-second = কলা
practice-third = চেরি
practice-full = এখানে শুধু একটি বেছে নেওয়া যায়। প্রথমে আপনার বেছে নেওয়া ফলটি বাদ দিন।
practice-chosen = বেছে নেওয়া হয়েছে। বাদ দিতে চাইলে এটি আবার বেছে নিন।
practice-undone = বাদ দেওয়া হয়েছে।
how-to-heading = কীভাবে ভোট দেবেন
how-to-choose = একটি নাম বেছে নিন। নামের ডিম্বাকার ঘরটি কালো হয়ে যাবে।
how-to-undo = বাদ দিতে চাইলে নামটি আবার বেছে নিন।
how-to-leave = চাইলে যেকোনো প্রতিযোগিতা খালি রাখতে পারেন।
how-to-review = শেষে আপনার সব পছন্দ দেখতে ও বদলাতে পারবেন।
how-to-paper = তারপর আপনার ব্যালট কাগজে ছাপাবেন ও যাচাই করবেন।

# A contest.
contest-place = প্রতিযোগিতা { $contest }, মোট { $contests }টি
limit-one = 1টি বেছে ভোট দিন
limit-many = সর্বোচ্চ { $limit }টি বেছে ভোট দিন
limit-any = যতগুলো ইচ্ছা বেছে ভোট দিন
limit-ranks = সর্বোচ্চ { $limit }টি পছন্দের ক্রম দিন। যাঁকে সবচেয়ে বেশি চান, তিনি 1 নম্বর পছন্দ।
limit-measure = 1টি উত্তর বেছে নিন
count-chosen = { $chosen ->
    [0] আপনি একটিও বেছে নেননি।
   *[other] আপনি { $limit }টির মধ্যে { $chosen }টি বেছে নিয়েছেন।
} { $left ->
    [0] আর বেছে নেওয়া যাবে না।
   *[other] আরও { $left }টি বেছে নিতে পারেন।
}
count-ranked = { $chosen ->
    [0] আপনি একটিরও ক্রম দেননি।
   *[other] আপনি { $limit }টির মধ্যে { $chosen }টির ক্রম দিয়েছেন।
} { $left ->
    [0] আর ক্রম দেওয়া যাবে না।
   *[other] আরও { $left }টির ক্রম দিতে পারেন।
}
affects-party = { $count ->
    [one] এখানে আপনার পছন্দ আরও { $count }টি প্রতিযোগিতায় ওই দলের প্রার্থীদের জন্যও গোনা হবে। তবু সেখানেও আপনি বেছে নিতে পারেন।
   *[other] এখানে আপনার পছন্দ আরও { $count }টি প্রতিযোগিতায় ওই দলের প্রার্থীদের জন্যও গোনা হবে। তবু সেখানেও আপনি বেছে নিতে পারেন।
}
affects-activation = এই প্রতিযোগিতার ভোট গোনা হবে কি না, তা আপনার উত্তরে ঠিক হতে পারে: { $contests }। তবু তাতে ভোট দিতে পারেন।
read-full-text = পুরো লেখা পড়ুন
full-text-heading = পুরো লেখা: { $title }
write-in-row = একটি নাম লিখুন
write-in-named = লেখা নাম: { $name }
write-in-blank = নাম লেখার খালি ঘর
state-rank = { $rank } নম্বর পছন্দ
state-no-rank = ক্রম দেওয়া হয়নি
said-chosen = বেছে নেওয়া হয়েছে: { $name }।
said-undone = বাদ দেওয়া হয়েছে: { $name }।
said-ranked = { $name } এখন { $rank } নম্বর পছন্দ।

# The limit.
limit-heading = { $limit ->
    [one] আপনি { $limit }টি বেছে নিয়েছেন। এখানে এর বেশি বেছে নেওয়া যায় না।
   *[other] আপনি { $limit }টি বেছে নিয়েছেন। এখানে এর বেশি বেছে নেওয়া যায় না।
}
limit-line = { $wanted } বেছে নিতে চাইলে প্রথমে এগুলোর একটি বাদ দিন।
undo-option = বাদ দিন: { $name }

# Ranks.
rank-pick-heading = { $name } আপনার কত নম্বর পছন্দ?
rank-free = { $rank } নম্বর পছন্দ
rank-taken = { $rank } নম্বর পছন্দ এখন { $name }।
rank-change-heading = { $name } আপনার { $rank } নম্বর পছন্দ
rank-undo = এই পছন্দ বাদ দিন
rank-move = এটিকে { $rank } নম্বরে নিন
lower-heading = নিচের পছন্দগুলো উপরে তুলবেন?
lower-line = আপনি একটি পছন্দ বাদ দিচ্ছেন। তার নিচের পছন্দগুলো উপরে উঠতে পারে, বা যেখানে আছে সেখানেই থাকতে পারে।
lower-move-up = উপরে তুলুন
lower-stay = যেমন আছে তেমন রাখুন

# Writing in.
write-in-heading = একটি নাম লিখুন
write-in-line = যে নাম তালিকায় নেই, শুধু সেই নাম লিখুন।
write-in-so-far = এ পর্যন্ত: { $name }
write-in-nothing = এখনও কিছু লেখা হয়নি।
keys-row = { $first } থেকে { $last }
key-name = { $letter }
key-written = { $letter }
key-refused = { $letter } আর ধরবে না। নামের জায়গা ভরে গেছে।
write-in-delete = শেষ অক্ষর মুছুন
write-in-deleted = মোছা হয়েছে: { $letter }
write-in-no-letter = মোছার মতো কোনো অক্ষর নেই।
write-in-spell = অক্ষরগুলো শুনুন
write-in-spelled = { $letters }
write-in-finish = নাম লেখা শেষ
blank-heading = আপনি কোনো নাম লেখেননি
blank-line = নাম লেখার ঘরে নাম না থাকলে ভোট গোনা না-ও হতে পারে।
blank-write = নাম লিখুন
blank-keep = নাম ছাড়াই দাগ রাখুন
blank-undo = নাম লেখার ঘর বাদ দিন
write-in-change-heading = আপনি একটি নাম লিখেছেন
write-in-edit = নাম বদলান
write-in-undo = লেখা নাম বাদ দিন

# Review and print.
review-heading = আপনার পছন্দ যাচাই করুন
review-complete = { $complete ->
   *[other] আপনি { $contests }টি প্রতিযোগিতার মধ্যে { $complete }টি শেষ করেছেন।
}
review-left = { $left ->
    [one] { $left }টি প্রতিযোগিতায় আরও বেছে নেওয়া যায়। সেটি প্রথমে আছে। আপনি এমনই চাইলে কোনো অসুবিধা নেই।
   *[other] { $left }টি প্রতিযোগিতায় আরও বেছে নেওয়া যায়। সেগুলো প্রথমে আছে। আপনি এমনই চাইলে কোনো অসুবিধা নেই।
}
review-how = পছন্দ বদলাতে চাইলে তার প্রতিযোগিতা বেছে নিন।
review-title = { $contest }. { $title }
review-nothing = কিছু বেছে নেওয়া হয়নি
review-chosen = { $names }
review-more-left = { $left ->
   *[other] আরও { $left }টি বেছে নিতে পারেন।
}
review-full = শেষ হয়েছে।
review-ranked = { $rank } নম্বর পছন্দ: { $name }
review-print = ছাপান
ask-print-heading = এখন আপনার ব্যালট ছাপাবেন?
ask-print-line = ছাপানোর পরে এই কাগজ আর বদলাতে পারবেন না। জমা দেওয়ার আগে আপনি এটি যাচাই করবেন।
ask-print-left = { $left ->
    [one] { $left }টি প্রতিযোগিতায় এখনও আরও বেছে নেওয়া যায়।
   *[other] { $left }টি প্রতিযোগিতায় এখনও আরও বেছে নেওয়া যায়।
}
ask-print-yes = হ্যাঁ, আমার ব্যালট ছাপান
ask-print-no = না, আমার পছন্দে ফিরে যান
printing-heading = আপনার ব্যালট ছাপা হচ্ছে
printing-line = দয়া করে অপেক্ষা করুন।
print-fault-heading = আপনার ব্যালট ছাপা হয়নি
fault-paper = প্রিন্টারে কাগজ নেই।
fault-jam = প্রিন্টারে কাগজ আটকে গেছে।
fault-offline = প্রিন্টার সাড়া দিচ্ছে না।
fault-not-made = ব্যালটটি প্রিন্টারের জন্য তৈরি করা যায়নি।
fault-kept = এতে আপনার কোনো দোষ নেই। আপনার পছন্দ রাখা আছে। একজন ভোটকর্মী সাহায্য করতে পারেন।
print-again = আবার ছাপানোর চেষ্টা করুন
call-worker = ভোটকর্মীকে ডাকুন

# The paper.
reading-heading = যন্ত্রটি আপনার কাগজ পড়ছে
reading-line = দয়া করে অপেক্ষা করুন।
read-fault-heading = আপনার কাগজ পড়া যায়নি
fault-no-sheet = কোনো পাতা পাওয়া যায়নি।
fault-unreadable = পাতার দাগগুলো স্পষ্ট ছিল না।
fault-other-ballot = এটি অন্য ব্যালটের পাতা।
fault-print-differs = এই পাতায় কিছু একটা ঠিক নেই। এই পাতা ব্যবহার করবেন না।
read-again = কাগজটি আবার পড়ুন
new-sheet = নতুন ব্যালট নিন
check-heading = আপনার কাগজের ব্যালট কি ঠিক আছে?
check-line = কাগজে প্রতিটি প্রতিযোগিতা দেখুন, বা কাগজটি পড়ে শোনাতে বলুন। এটি এখনও জমা হয়নি।
check-sheets = { $sheets ->
    [one] আপনার ব্যালট { $sheets }টি পাতায় আছে।
   *[other] আপনার ব্যালট { $sheets }টি পাতায় আছে।
}
check-yes = হ্যাঁ, ঠিক আছে
check-no = না, কিছু ভুল আছে
check-read = আমাকে পড়ে শোনান
read-back-heading = আপনার কাগজে যা আছে
read-back-line = এই কথাগুলো কাগজ থেকে নেওয়া।
paper-contest = { $title }
paper-nothing = কোনো দাগ দেওয়া নেই
paper-marked = দাগ দেওয়া আছে: { $names }
paper-ranked = { $names }
paper-rank = { $rank } নম্বর পছন্দ, { $name }
paper-doubt = এখানে একটি দাগ স্পষ্ট নয়। দয়া করে দেখে নিন।
paper-write-in-read = লেখা নাম { $name }
paper-write-in-unread = হাতে লেখা বা টাইপ করা একটি নাম যা আমি পড়তে পারছি না
paper-write-in-none = নাম লেখার খালি ঘর
differs-heading = আপনি যা বেছে নিয়েছেন, কাগজে তা নেই
differs-line = এই কাগজ ব্যবহার করবেন না। এতে আপনার কোনো দোষ নেই। দয়া করে নতুন ব্যালট নিন বা ভোটকর্মীকে ডাকুন।
differs-where = দেখুন: { $contests }
spoil-heading = নতুন ব্যালট নিন
spoil-device-heading = আপনি নতুন ব্যালট পাবেন
spoil-line = আপনার কাছে যে কাগজ আছে, তা বাক্সে বা স্ক্যানারে জমা দেবেন না। একজন ভোটকর্মীর হাতে দিন। আপনি কী করতে চান?
spoil-left = { $left ->
    [one] এখানে আরও { $left }টি নতুন ব্যালট নিতে পারেন।
   *[other] এখানে আরও { $left }টি নতুন ব্যালট নিতে পারেন।
}
spoil-none = এই যন্ত্র আপনার জন্য যতগুলো নতুন ব্যালট ছাপাতে পারে, আপনি সবই পেয়েছেন। একজন ভোটকর্মী আপনাকে সাহায্য করতে পারেন।
spoil-keep = আমার পছন্দ রেখে ঠিক করে নেব
spoil-fresh = কোনো পছন্দ ছাড়া আবার শুরু করব
spoil-cancel = ফিরে যাব, কাগজ ঠিক আছে
done-heading = আপনার ব্যালট ছাপা হয়েছে। এটি এখনও জমা হয়নি।
done-line = আপনার কাগজ ব্যালট বাক্সে বা ব্যালট স্ক্যানারে নিয়ে যান। সেখানে জমা দিলে তবেই এটি গোনা হবে।
done-sheets = { $sheets ->
    [one] আপনাকে { $sheets }টি পাতা জমা দিতে হবে।
   *[other] আপনাকে { $sheets }টি পাতা জমা দিতে হবে। সবগুলো জমা দিন।
}
done-thanks = এই যন্ত্র কোনো ভোট রেখে দেয় না। ধন্যবাদ।
done-leave = আমার কাগজ নিয়েছি। আমার কাজ শেষ।

# Help and the worker.
help-heading = আমরা কীভাবে সাহায্য করতে পারি?
help-explain = এই স্ক্রিন বুঝিয়ে দিন
help-worker = ভোটকর্মীকে ডাকুন
explain-heading = এই স্ক্রিন সম্পর্কে
worker-heading = স্ক্রিন ঢাকা আছে
worker-line = একজন ভোটকর্মীকে ডাকা হয়েছে। আপনার পছন্দ রাখা আছে। কেউ তা দেখতে পাবেন না।
worker-asked = ভোটার সাহায্য চেয়েছেন।
worker-not-mine = ভোটার বলছেন: এটি আমার ব্যালট নয়।
worker-replacements = ভোটার আরও একটি নতুন ব্যালট চান।
worker-device = একটি যন্ত্রের জন্য ভোটকর্মী দরকার।
worker-no-press = কিছু সময় ধরে কেউ কোনো বোতাম চাপেননি।
worker-came = একজন ভোটকর্মী এখানে আছেন। আপনার পছন্দ ঢাকা আছে এবং রাখা আছে।
worker-return = ভোটার যেখানে ছিলেন সেখানে ফিরুন
worker-here = একজন ভোটকর্মী এখানে আছেন
worker-end = ভোটকর্মী: এই ভোটারের পালা শেষ করুন
confirm-end-heading = এই ভোটারের পালা শেষ করবেন?
confirm-end-line = সব পছন্দ মুছে যাবে। কোনো পাতা ছাপা হয়ে থাকলে তা বের করে নিতে হবে।
confirm-end-yes = হ্যাঁ, পালা শেষ করুন
confirm-end-no = না, ফিরে যান
ended-heading = এই ভোটারের পালা শেষ
ended-line = কিছুই রাখা হয়নি।

# What each screen is for.
explain-opening = আপনি কোন ব্যালটে দাগ দেবেন, এই স্ক্রিন তা দেখায়। ব্যালটটি আপনার না হলে এখানে জানান।
explain-languages = আপনি যে ভাষায় পড়তে ও শুনতে চান, তা বেছে নিন।
explain-comfort = অক্ষর বড় করুন, রং বদলান, বা কণ্ঠ বদলান।
explain-presses = আপনার সুইচ ও চাপ কীভাবে কাজ করবে, এখানে তা বদলাতে পারেন।
explain-hide = আপনি শুনলে এবং কাউকে আপনার পছন্দ দেখাতে না চাইলে স্ক্রিন ঢাকুন।
explain-practice = কীভাবে বেছে নিতে হয়, এখানে চেষ্টা করে দেখতে পারেন। এটি গোনা হয় না।
explain-how-to = কীভাবে ভোট দেবেন, এখানে তা লেখা আছে।
explain-contest = এটি আপনার ব্যালটের একটি প্রতিযোগিতা। আপনি যে নাম চান, তা বেছে নিন। তারপর “পরের” বেছে এগিয়ে যান।
explain-limit = যতগুলো বেছে নেওয়া যায়, আপনি ততগুলো বেছে নিয়েছেন। অন্য একটি বেছে নিতে চাইলে এগুলোর একটি বাদ দিন।
explain-rank = এখানে আপনি প্রার্থীদের পছন্দের ক্রম দেন। যাঁকে সবচেয়ে বেশি চান, তিনি 1 নম্বর পছন্দ।
explain-write-in = এখানে আপনি স্ক্রিনের বোতাম দিয়ে একটি নাম লেখেন।
explain-full-text = এটি প্রশ্নটির পুরো লেখা।
explain-review = এগুলো আপনার সব পছন্দ। বদলাতে চাইলে একটি প্রতিযোগিতা বেছে নিন। প্রস্তুত হলে “ছাপান” বেছে নিন।
explain-print = প্রিন্টার আপনার হয়ে কাগজের ব্যালটে দাগ দেয়।
explain-fault = কোনো যন্ত্রে সমস্যা হয়েছে। এতে আপনার কোনো দোষ নেই। একজন ভোটকর্মী সাহায্য করতে পারেন।
explain-paper = এখানে আপনার কাগজ যাচাই করুন। কাগজটি দেখতে পারেন, বা তাতে কী আছে শুনতে পারেন।
explain-spoil = আপনার কাগজে ভুল থাকলে নতুন একটি নিতে পারেন।
explain-done = আপনার কাগজ তৈরি। এটি নিয়ে ব্যালট বাক্সে বা স্ক্যানারে জমা দিন।
explain-switches = দুটি সুইচ দিয়ে: প্রথম সুইচ পরেরটিতে যায়। দ্বিতীয় সুইচ সেটি বেছে নেয়। একটি সুইচ দিয়ে: যন্ত্র নিজেই পরেরটিতে যায়। যা চান তা শুনলে চাপ দিন।
explain-keys = বোতাম দিয়ে: তির বোতাম উপরে ও নিচে যায়। এন্টার বোতাম বেছে নেয়। P বোতাম কণ্ঠ থামায় ও আবার চালায়। S বোতাম নামের বানান বলে।
explain-touch = ছুঁয়ে: যা চান, তাতে আঙুল ছোঁয়ান।

# Joining, letters and names.
list-separator = { ", " }
ticket-separator = { " এবং " }
letter-space = ফাঁকা জায়গা
letter-hyphen = হাইফেন
letter-apostrophe = অ্যাপস্ট্রফি
letter-period = বিন্দু
letter-a-acute = Á
    .heard = উপরে টান দেওয়া A
letter-e-acute = É
    .heard = উপরে টান দেওয়া E
letter-i-acute = Í
    .heard = উপরে টান দেওয়া I
letter-o-acute = Ó
    .heard = উপরে টান দেওয়া O
letter-u-acute = Ú
    .heard = উপরে টান দেওয়া U
letter-n-tilde = Ñ
    .heard = উপরে ঢেউ দেওয়া N
letter-u-diaeresis = Ü
    .heard = উপরে দুই বিন্দু দেওয়া U
letter-a-diaeresis = Ä
    .heard = উপরে দুই বিন্দু দেওয়া A
letter-e-diaeresis = Ë
    .heard = উপরে দুই বিন্দু দেওয়া E
letter-i-diaeresis = Ï
    .heard = উপরে দুই বিন্দু দেওয়া I
letter-o-diaeresis = Ö
    .heard = উপরে দুই বিন্দু দেওয়া O
letter-c-cedilla = Ç
    .heard = নিচে লেজ দেওয়া C
