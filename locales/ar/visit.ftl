# What a voter reads and hears, Arabic. A ".heard" attribute is said where it differs from what is read.
# Unreviewed: a certified translator must check it before use.
plain = { $text }

# The bar at the bottom, and long lists.
bar-back = رجوع
bar-next = التالي
bar-hear-again = سماع مرة أخرى
bar-comfort = الحجم والصوت
bar-help = مساعدة
bar-done = انتهيت
bar-skip = تخطي
bar-to-review = الرجوع للمراجعة
bar-keep = إبقاء خياراتي
more-above = المزيد فوق: { $count }
more-below = المزيد تحت: { $count }
state-demo = عرض تجريبي. هذه ليست بطاقة اقتراع حقيقية.
state-test = اختبار. هذه ليست بطاقة اقتراع حقيقية.
notice-no-speech = توقف الصوت. تم استدعاء موظف الاقتراع. يمكنك المتابعة على الشاشة.
option-place = الخيار { $option } من { $options }.
block-rows = من { $first } إلى { $last }: من { $from } إلى { $to }.
block-back-one = الرجوع إلى الأخير
block-start = الرجوع إلى أول المجموعة
group = المزيد: { $items }.

# The screen that a voter has hidden.
cover-line = يُرجى الاستماع بالسماعات. اللمس متوقف.
said-covered = الشاشة مخفية. اللمس متوقف.
said-hidden = نعم. شاشتك مخفية.
said-shown = لا. يمكن رؤية شاشتك.
screen-is-hidden = الشاشة مخفية
screen-is-shown = الشاشة ظاهرة
hide-needs-voice = يُرجى أولًا تشغيل الصوت. بعد ذلك يمكنك إخفاء الشاشة.
ask-hide-heading = هل نخفي الشاشة؟
ask-hide-line = عندها يتوقف اللمس. ستلزمك مفاتيح أو أزرار.
ask-hide-yes = نعم، إخفاء الشاشة
ask-hide-no = لا، إبقاؤها ظاهرة

# Listening to a screen.
listen-heading = سماع هذه الشاشة
listen-on = الجملة التالية
listen-back = الجملة السابقة
listen-pause = إيقاف مؤقت
listen-go-on = متابعة
listen-start = من البداية
listen-spell = تهجئة الاسم
listen-hidden = هل شاشتي مخفية؟
nothing-to-spell = لا يوجد هنا اسم لتهجئته.

# Time.
more-time-heading = هل يلزمك وقت إضافي؟
more-time-line = يُرجى الضغط على أي زر للمتابعة. خياراتك محفوظة.
more-time-yes = نعم، يلزمني وقت إضافي

# Switches and presses.
comfort-hide = إخفاء الشاشة
comfort-show = إظهار الشاشة
comfort-presses = الأزرار والضغطات
presses-heading = الأزرار والضغطات
presses-line = يمكنك تغييرها إذا لم تعمل ضغطاتك كما يجب.
one-switch = استخدام زر واحد
two-switches = استخدام زرّين
has-one-switch = زر واحد: الجهاز ينتقل وحده
has-two-switches = زرّان
scan-faster = انتقال أسرع
scan-slower = انتقال أبطأ
scan-step = الانتظار { $step } من { $steps }
accept-longer = حساب الضغطات الأطول فقط
accept-shorter = حساب الضغطات الأقصر أيضًا
accept-step = طول الضغطة { $step } من { $steps }
ignore-longer = انتظار أطول بين الضغطات
ignore-shorter = انتظار أقصر بين الضغطات
ignore-step = الانتظار { $step } من { $steps }
offer-heading = هل نجعل الضغط أسهل؟
offer-accept = بعض الضغطات كانت قصيرة جدًا. يمكن للجهاز ألا يحسبها.
offer-ignore = بعض الضغطات جاءت مرتين. يمكن للجهاز ألا يحسب الثانية.
offer-scan = يمكن للجهاز أن ينتقل بالسرعة التي تناسبك.
offer-yes = نعم، لنفعل ذلك
offer-no = لا، إبقاؤها كما هي

# Opening.
opening-heading = أهلًا بك. هنا يمكنك وضع العلامات على بطاقة اقتراعك.
opening-precinct = دائرتك الانتخابية: { $precinct }
opening-party = الحزب: { $party }
opening-how = يُرجى الضغط على أي زر للمتابعة.
opening-begin = البدء
opening-not-mine = هذه ليست بطاقة اقتراعي

# Languages.
languages-heading = يُرجى اختيار لغتك
language-name = العربية
language-chosen = تم اختيار العربية.
state-chosen = تم الاختيار
state-not-chosen = لم يتم الاختيار

# Comfort.
comfort-heading = الحجم والألوان والصوت
comfort-line = يمكنك تغييرها في أي وقت. لن تضيع خياراتك.
comfort-larger = تكبير الحروف
comfort-smaller = تصغير الحروف
comfort-colours = تغيير الألوان
comfort-speech-on = تشغيل الصوت
comfort-speech-off = إيقاف الصوت
comfort-faster = كلام أسرع
comfort-slower = كلام أبطأ
comfort-louder = صوت أعلى
comfort-softer = صوت أخفض
comfort-language = تغيير اللغة
size-small = حروف صغيرة
size-medium = حروف متوسطة
size-large = حروف كبيرة
size-largest = أكبر الحروف
size-is-most = لا يمكن لهذه الشاشة عرض حروف أكبر.
palette-dark-on-light = داكن على أبيض
palette-light-on-dark = أبيض على أسود
palette-yellow-on-dark = أصفر على أسود
palette-low-contrast = ألوان هادئة
pace-step = السرعة { $step } من { $steps }
loudness-step = مستوى الصوت { $step } من { $steps }
speech-is-on = الصوت يعمل
speech-is-off = الصوت متوقف

# Practice and how to vote.
practice-heading = لنجرّب أولًا
practice-line = أي فاكهة تعجبك؟ يُرجى اختيار واحدة. هذا السؤال ليس في بطاقة اقتراعك.
practice-first = تفاح
practice-second = موز
practice-third = كرز
practice-full = يمكنك اختيار فاكهة واحدة فقط هنا. يُرجى أولًا إلغاء اختيارك السابق.
practice-chosen = تم الاختيار. لإلغاء الاختيار، يُرجى اختيار الفاكهة نفسها مرة أخرى.
practice-undone = تم إلغاء الاختيار.
how-to-heading = طريقة التصويت
how-to-choose = عند اختيار اسم، يصبح الشكل البيضاوي بجانبه أسود.
how-to-undo = لإلغاء الاختيار، يُرجى اختيار الاسم نفسه مرة أخرى.
how-to-leave = يمكنك ترك أي منافسة فارغة.
how-to-review = في النهاية يمكنك مراجعة كل خياراتك وتغييرها.
how-to-paper = بعد ذلك يمكنك طباعة بطاقة اقتراعك على الورق ومراجعتها.

# A contest.
contest-place = المنافسة { $contest } من { $contests }
limit-one = التصويت لخيار واحد
limit-many = { $limit ->
    [zero] لا يوجد تصويت هنا
    [one] التصويت لخيار واحد
    [two] التصويت لخيارين على الأكثر
    [few] التصويت لـ { $limit } خيارات على الأكثر
    [many] التصويت لـ { $limit } خيارًا على الأكثر
   *[other] التصويت لـ { $limit } خيار على الأكثر
}
limit-any = التصويت لأي عدد من الخيارات
limit-ranks = { $limit ->
    [zero] لا يوجد ترتيب هنا.
    [one] ترتيب اسم واحد على الأكثر. المرتبة 1 هي لخيارك المفضل.
    [two] ترتيب اسمين على الأكثر. المرتبة 1 هي لخيارك المفضل.
    [few] ترتيب { $limit } أسماء على الأكثر. المرتبة 1 هي لخيارك المفضل.
    [many] ترتيب { $limit } اسمًا على الأكثر. المرتبة 1 هي لخيارك المفضل.
   *[other] ترتيب { $limit } اسم على الأكثر. المرتبة 1 هي لخيارك المفضل.
}
limit-measure = اختيار إجابة واحدة
count-chosen = { $chosen ->
    [0] لم يتم أي اختيار.
   *[other] تم اختيار { $chosen } من { $limit }.
} { $left ->
    [0] لا يمكنك إضافة المزيد.
    [zero] لا يمكنك إضافة المزيد.
    [one] يمكنك إضافة خيار واحد.
    [two] يمكنك إضافة خيارين.
    [few] يمكنك إضافة { $left } خيارات.
    [many] يمكنك إضافة { $left } خيارًا.
   *[other] يمكنك إضافة { $left } خيار.
}
count-ranked = { $chosen ->
    [0] لم يتم أي ترتيب.
   *[other] تم ترتيب { $chosen } من { $limit }.
} { $left ->
    [0] لا يمكنك إضافة المزيد إلى الترتيب.
    [zero] لا يمكنك إضافة المزيد إلى الترتيب.
    [one] يمكنك إضافة اسم واحد إلى الترتيب.
    [two] يمكنك إضافة اسمين إلى الترتيب.
    [few] يمكنك إضافة { $left } أسماء إلى الترتيب.
    [many] يمكنك إضافة { $left } اسمًا إلى الترتيب.
   *[other] يمكنك إضافة { $left } اسم إلى الترتيب.
}
affects-party = { $count ->
    [zero] اختيارك هنا لا يُحسب في أي منافسة أخرى.
    [one] اختيارك هنا يُحسب أيضًا في منافسة واحدة أخرى، لمرشحي ذلك الحزب. ومع ذلك يمكنك الاختيار فيها.
    [two] اختيارك هنا يُحسب أيضًا في منافستين أخريين، لمرشحي ذلك الحزب. ومع ذلك يمكنك الاختيار فيهما.
    [few] اختيارك هنا يُحسب أيضًا في { $count } منافسات أخرى، لمرشحي ذلك الحزب. ومع ذلك يمكنك الاختيار فيها.
    [many] اختيارك هنا يُحسب أيضًا في { $count } منافسة أخرى، لمرشحي ذلك الحزب. ومع ذلك يمكنك الاختيار فيها.
   *[other] اختيارك هنا يُحسب أيضًا في { $count } منافسة أخرى، لمرشحي ذلك الحزب. ومع ذلك يمكنك الاختيار فيها.
}
affects-activation = إجابتك قد تحدد هل تُحسب هذه المنافسة أم لا: { $contests }. ومع ذلك يمكنك التصويت فيها.
read-full-text = قراءة النص الكامل
full-text-heading = النص الكامل: { $title }
write-in-row = كتابة اسم
write-in-named = اسم مكتوب: { $name }
write-in-blank = خانة فارغة لاسم مكتوب
state-rank = المرتبة { $rank }
state-no-rank = بلا مرتبة
said-chosen = تم اختيار { $name }.
said-undone = تم إلغاء اختيار { $name }.
said-ranked = { $name } الآن في المرتبة { $rank }.

# The limit.
limit-heading = { $limit ->
    [zero] لا يمكنك الاختيار هنا.
    [one] تم اختيار خيار واحد. لا يمكنك اختيار أكثر من ذلك هنا.
    [two] تم اختيار خيارين. لا يمكنك اختيار أكثر من ذلك هنا.
    [few] تم اختيار { $limit } خيارات. لا يمكنك اختيار أكثر من ذلك هنا.
    [many] تم اختيار { $limit } خيارًا. لا يمكنك اختيار أكثر من ذلك هنا.
   *[other] تم اختيار { $limit } خيار. لا يمكنك اختيار أكثر من ذلك هنا.
}
limit-line = لاختيار { $wanted }، يُرجى أولًا إلغاء أحد هذه الخيارات.
undo-option = إلغاء اختيار { $name }

# Ranks.
rank-pick-heading = ما مرتبة { $name }؟
rank-free = المرتبة { $rank }
rank-taken = المرتبة { $rank } فيها { $name }
rank-change-heading = { $name } في المرتبة { $rank }
rank-undo = إلغاء هذه المرتبة
rank-move = نقل إلى المرتبة { $rank }
lower-heading = هل نرفع الأسماء التي في المراتب الأدنى؟
lower-line = هنا يُحذف اسم واحد من ترتيبك. الأسماء التي بعده يمكن أن ترتفع، أو أن تبقى في مكانها.
lower-move-up = رفع الأسماء
lower-stay = ترك الأسماء كما هي

# Writing in.
write-in-heading = كتابة اسم
write-in-line = يُرجى فقط كتابة اسم ليس في القائمة.
write-in-so-far = حتى الآن: { $name }
write-in-nothing = لم يُكتب شيء بعد.
keys-row = من { $first } إلى { $last }
key-name = { $letter }
key-written = { $letter }
key-refused = لا مكان لإضافة { $letter }. خانة الاسم ممتلئة.
write-in-delete = حذف آخر حرف
write-in-deleted = تم حذف { $letter }
write-in-no-letter = لا يوجد حرف لحذفه.
write-in-spell = سماع الحروف
write-in-spelled = { $letters }
write-in-finish = اكتمل الاسم
blank-heading = لم يُكتب أي اسم
blank-line = خانة الاسم المكتوب قد لا تُحسب إذا بقيت بلا اسم.
blank-write = كتابة اسم
blank-keep = ترك العلامة عليها بلا اسم
blank-undo = عدم استخدام خانة الاسم المكتوب
write-in-change-heading = لديك اسم مكتوب
write-in-edit = تغيير الاسم
write-in-undo = إلغاء الاسم المكتوب

# Review and print.
review-heading = يُرجى مراجعة خياراتك
review-complete = المنافسات المكتملة: { $complete } من { $contests }.
review-left = { $left ->
    [zero] لم تبقَ خيارات في أي منافسة.
    [one] بقيت لك خيارات في منافسة واحدة. وهي تظهر أولًا. لا بأس بتركها هكذا.
    [two] بقيت لك خيارات في منافستين. وهما تظهران أولًا. لا بأس بتركهما هكذا.
    [few] بقيت لك خيارات في { $left } منافسات. وهي تظهر أولًا. لا بأس بتركها هكذا.
    [many] بقيت لك خيارات في { $left } منافسة. وهي تظهر أولًا. لا بأس بتركها هكذا.
   *[other] بقيت لك خيارات في { $left } منافسة. وهي تظهر أولًا. لا بأس بتركها هكذا.
}
review-how = لتغيير أي خيار، يُرجى اختيار المنافسة التي هو فيها.
review-title = { $contest }. { $title }
review-nothing = لم يتم أي اختيار
review-chosen = { $names }
review-more-left = { $left ->
    [zero] لا يمكنك إضافة المزيد.
    [one] يمكنك إضافة خيار واحد.
    [two] يمكنك إضافة خيارين.
    [few] يمكنك إضافة { $left } خيارات.
    [many] يمكنك إضافة { $left } خيارًا.
   *[other] يمكنك إضافة { $left } خيار.
}
review-full = مكتملة.
review-ranked = المرتبة { $rank }: { $name }
review-print = طباعة
ask-print-heading = هل نطبع بطاقة اقتراعك الآن؟
ask-print-line = بعد الطباعة لا يمكنك تغيير هذه البطاقة الورقية. ستكون لك فرصة لمراجعتها قبل وضعها في صندوق الاقتراع.
ask-print-left = { $left ->
    [zero] لم تبقَ خيارات في أي منافسة.
    [one] لا تزال لك خيارات باقية في منافسة واحدة.
    [two] لا تزال لك خيارات باقية في منافستين.
    [few] لا تزال لك خيارات باقية في { $left } منافسات.
    [many] لا تزال لك خيارات باقية في { $left } منافسة.
   *[other] لا تزال لك خيارات باقية في { $left } منافسة.
}
ask-print-yes = نعم، طباعة بطاقة اقتراعي
ask-print-no = لا، الرجوع إلى خياراتي
printing-heading = تجري طباعة بطاقة اقتراعك
printing-line = يُرجى الانتظار.
print-fault-heading = لم تُطبع بطاقة اقتراعك
fault-paper = لا يوجد ورق في الطابعة.
fault-jam = الورق عالق في الطابعة.
fault-offline = الطابعة لا تستجيب.
fault-not-made = تعذّر تجهيز بطاقة الاقتراع للطباعة.
fault-kept = هذا ليس خطأك. خياراتك محفوظة. يمكن لموظف الاقتراع مساعدتك.
print-again = محاولة الطباعة مرة أخرى
call-worker = استدعاء موظف

# The paper.
reading-heading = الجهاز يقرأ بطاقتك الورقية
reading-line = يُرجى الانتظار.
read-fault-heading = تعذّرت قراءة بطاقتك الورقية
fault-no-sheet = لم نجد أي ورقة.
fault-unreadable = العلامات على الورقة لم تكن واضحة.
fault-other-ballot = هذه ورقة من بطاقة اقتراع أخرى.
fault-print-differs = شيء على الورقة ليس كما يجب. يُرجى عدم استخدام هذه الورقة.
read-again = قراءة البطاقة مرة أخرى
new-sheet = طلب بطاقة اقتراع جديدة
check-heading = هل بطاقة اقتراعك الورقية صحيحة؟
check-line = يُرجى النظر إلى كل منافسة على البطاقة الورقية، أو سماع ما عليها. لم توضع في صندوق الاقتراع بعد.
check-sheets = { $sheets ->
    [zero] لا توجد أوراق لبطاقة اقتراعك.
    [one] بطاقة اقتراعك على ورقة واحدة.
    [two] بطاقة اقتراعك على ورقتين.
    [few] بطاقة اقتراعك على { $sheets } أوراق.
    [many] بطاقة اقتراعك على { $sheets } ورقة.
   *[other] بطاقة اقتراعك على { $sheets } ورقة.
}
check-yes = نعم، صحيحة
check-no = لا، يوجد خطأ
check-read = سماع ما عليها
read-back-heading = هذا ما على بطاقتك الورقية
read-back-line = هذه الكلمات مأخوذة من البطاقة الورقية.
paper-contest = { $title }
paper-nothing = لا توجد أي علامة
paper-marked = العلامة على: { $names }
paper-ranked = { $names }
paper-rank = المرتبة { $rank }: { $name }
paper-doubt = توجد هنا علامة غير واضحة. يُرجى النظر إليها.
paper-write-in-read = اسم مكتوب: { $name }
paper-write-in-unread = اسم مكتوب باليد أو مطبوع لا أستطيع قراءته
paper-write-in-none = خانة فارغة لاسم مكتوب
differs-heading = البطاقة الورقية ليست كما اخترت
differs-line = يُرجى عدم استخدام هذه البطاقة الورقية. هذا ليس خطأك. يُرجى طلب بطاقة اقتراع جديدة أو استدعاء موظف الاقتراع.
differs-where = يُرجى النظر إلى: { $contests }
spoil-heading = طلب بطاقة اقتراع جديدة
spoil-device-heading = سنعطيك بطاقة اقتراع جديدة
spoil-line = يُرجى عدم وضع البطاقة الورقية التي معك في صندوق الاقتراع، وإعطاؤها لموظف الاقتراع. ما الخطوة التالية التي تناسبك؟
spoil-left = { $left ->
    [zero] لا يمكنك طلب بطاقات اقتراع جديدة أخرى هنا.
    [one] لا يزال بإمكانك طلب بطاقة اقتراع جديدة واحدة هنا.
    [two] لا يزال بإمكانك طلب بطاقتي اقتراع جديدتين هنا.
    [few] لا يزال بإمكانك طلب { $left } بطاقات اقتراع جديدة هنا.
    [many] لا يزال بإمكانك طلب { $left } بطاقة اقتراع جديدة هنا.
   *[other] لا يزال بإمكانك طلب { $left } بطاقة اقتراع جديدة هنا.
}
spoil-none = طُبعت لك كل بطاقات الاقتراع الجديدة التي يُسمح لهذا الجهاز بطباعتها لك. يمكن لموظف الاقتراع مساعدتك.
spoil-keep = إبقاء خياراتي وتصحيحها
spoil-fresh = البدء من جديد بلا خيارات
spoil-cancel = الرجوع، البطاقة صحيحة
done-heading = تمت طباعة بطاقة اقتراعك. لم توضع في صندوق الاقتراع بعد.
done-line = يُرجى أخذ بطاقتك الورقية إلى صندوق الاقتراع أو إلى الماسح الضوئي للبطاقات. لا تُحسب إلا بعد وضعها هناك.
done-sheets = { $sheets ->
    [zero] ليست معك أوراق لوضعها هناك.
    [one] معك ورقة واحدة لوضعها هناك.
    [two] معك ورقتان لوضعهما هناك. يُرجى وضع كل ورقة منهما.
    [few] معك { $sheets } أوراق لوضعها هناك. يُرجى وضع كل الأوراق.
    [many] معك { $sheets } ورقة لوضعها هناك. يُرجى وضع كل الأوراق.
   *[other] معك { $sheets } ورقة لوضعها هناك. يُرجى وضع كل الأوراق.
}
done-thanks = هذا الجهاز لا يحفظ أي تصويت. شكرًا لك.
done-leave = بطاقتي الورقية معي. انتهيت.

# Help and the worker.
help-heading = كيف يمكننا مساعدتك؟
help-explain = شرح هذه الشاشة
help-worker = استدعاء موظف
explain-heading = عن هذه الشاشة
worker-heading = الشاشة مخفية
worker-line = تم استدعاء موظف الاقتراع. خياراتك محفوظة. لا يمكن لأحد رؤيتها.
worker-asked = طلب الناخب المساعدة.
worker-not-mine = يقول الناخب: هذه ليست بطاقة اقتراعي.
worker-replacements = يريد الناخب بطاقة اقتراع جديدة إضافية.
worker-device = أحد الأجهزة يحتاج إلى موظف الاقتراع.
worker-no-press = لم يضغط أحد على أي زر منذ مدة.
worker-came = موظف الاقتراع هنا. خياراتك مخفية ومحفوظة.
worker-return = الرجوع إلى حيث كان الناخب
worker-here = موظف الاقتراع هنا
worker-end = للموظف: إنهاء هذه الجلسة
confirm-end-heading = هل ننهي هذه الجلسة؟
confirm-end-line = ستُمحى كل الخيارات. إذا طُبعت ورقة، فيجب إخراجها.
confirm-end-yes = نعم، إنهاء الجلسة
confirm-end-no = لا، رجوع
ended-heading = انتهت هذه الجلسة
ended-line = لم يُحفظ أي شيء.

# What each screen is for.
explain-opening = تبيّن هذه الشاشة بطاقة الاقتراع التي ستوضع عليها علاماتك. إذا لم تكن بطاقتك، فيمكنك قول ذلك هنا.
explain-languages = يُرجى اختيار لغة القراءة والسماع.
explain-comfort = هنا يمكنك تكبير الحروف أو تغيير الألوان أو تغيير الصوت.
explain-presses = هنا يمكنك تغيير طريقة عمل أزرارك وضغطاتك.
explain-hide = عند الاستماع يمكنك إخفاء الشاشة، حتى لا يرى أحد خياراتك.
explain-practice = هنا يمكنك تجربة طريقة الاختيار. هذا لا يُحسب.
explain-how-to = هذه السطور تشرح لك طريقة التصويت.
explain-contest = هذه منافسة من بطاقة اقتراعك. هنا يمكنك اختيار الأسماء المفضلة لديك. بعد ذلك يُرجى المتابعة بزر «التالي».
explain-limit = تم اختيار كل ما يمكنك اختياره هنا. لاختيار اسم آخر، يُرجى أولًا إلغاء أحد خياراتك.
explain-rank = هنا يمكنك ترتيب الأسماء. المرتبة 1 هي لخيارك المفضل.
explain-write-in = هنا يمكنك كتابة اسم بالمفاتيح التي على الشاشة.
explain-full-text = هذا هو النص الكامل للسؤال.
explain-review = هذه كل خياراتك. لتغيير أي خيار، يُرجى اختيار المنافسة التي هو فيها. عند الانتهاء، يُرجى اختيار «طباعة».
explain-print = الطابعة تضع العلامات على بطاقة اقتراعك الورقية بدلًا منك.
explain-fault = حدثت مشكلة في أحد الأجهزة. هذا ليس خطأك. يمكن لموظف الاقتراع مساعدتك.
explain-paper = هنا يمكنك مراجعة بطاقتك الورقية. يمكنك النظر إليها أو سماع ما عليها.
explain-spoil = إذا كان في بطاقتك الورقية خطأ، فيمكنك طلب بطاقة جديدة.
explain-done = بطاقتك الورقية جاهزة. يُرجى أخذها ووضعها في صندوق الاقتراع أو في الماسح الضوئي.
explain-switches = عند استخدام زرّين: الأول ينتقل إلى العنصر التالي. والثاني يختاره. عند استخدام زر واحد: الجهاز ينتقل وحده. يُرجى الضغط عند سماع الخيار المطلوب.
explain-keys = عند استخدام المفاتيح: الأسهم للصعود والنزول. ومفتاح Enter للاختيار. ومفتاح P لإيقاف الصوت ثم متابعته. ومفتاح S لتهجئة اسم.
explain-touch = عند استخدام اللمس: يُرجى لمس الخيار المطلوب.

# Joining, letters and names.
list-separator = { "، " }
ticket-separator = { " و " }
letter-space = مسافة
letter-hyphen = شرطة
letter-apostrophe = فاصلة عليا
letter-period = نقطة
letter-a-acute = Á
    .heard = A فوقها علامة مائلة
letter-e-acute = É
    .heard = E فوقها علامة مائلة
letter-i-acute = Í
    .heard = I فوقها علامة مائلة
letter-o-acute = Ó
    .heard = O فوقها علامة مائلة
letter-u-acute = Ú
    .heard = U فوقها علامة مائلة
letter-n-tilde = Ñ
    .heard = N فوقها خط متموّج
letter-u-diaeresis = Ü
    .heard = U فوقها نقطتان
letter-a-diaeresis = Ä
    .heard = A فوقها نقطتان
letter-e-diaeresis = Ë
    .heard = E فوقها نقطتان
letter-i-diaeresis = Ï
    .heard = I فوقها نقطتان
letter-o-diaeresis = Ö
    .heard = O فوقها نقطتان
letter-c-cedilla = Ç
    .heard = C تحتها ذيل صغير
