# What stands on the paper ballot beside the election's own texts, Arabic.
# Unreviewed: a certified translator must check it before use.
paper-style = نموذج بطاقة الاقتراع { $style }
paper-how-heading = طريقة وضع العلامات على بطاقة الاقتراع هذه
paper-how-fill = يُرجى تظليل الشكل البيضاوي كله بجانب خيارك، بقلم حبر أسود أو أزرق.
paper-how-write = للتصويت لشخص ليس في القائمة، يُرجى تظليل الشكل البيضاوي وكتابة الاسم فوق الخط.
paper-how-mistake = عند حدوث خطأ، يُرجى طلب بطاقة اقتراع جديدة.
paper-limit-one = التصويت لخيار واحد
paper-limit-many = { $limit ->
    [zero] لا يوجد تصويت هنا
    [one] التصويت لخيار واحد
    [two] التصويت لخيارين على الأكثر
    [few] التصويت لـ { $limit } خيارات على الأكثر
    [many] التصويت لـ { $limit } خيارًا على الأكثر
   *[other] التصويت لـ { $limit } خيار على الأكثر
}
paper-limit-any = التصويت لأي عدد من الخيارات
paper-limit-ranks = { $limit ->
    [zero] لا يوجد ترتيب هنا.
    [one] ترتيب اسم واحد على الأكثر.
    [two] ترتيب اسمين على الأكثر.
    [few] ترتيب { $limit } أسماء على الأكثر.
    [many] ترتيب { $limit } اسمًا على الأكثر.
   *[other] ترتيب { $limit } اسم على الأكثر.
} العمود 1 هو لخيارك المفضل. يُرجى تظليل شكل بيضاوي واحد على الأكثر في كل صف وفي كل عمود.
paper-limit-measure = التصويت لإجابة واحدة
paper-affects-party = { $count ->
    [zero] التصويت هنا لا يُحسب في أي منافسة أخرى.
    [one] التصويت هنا يُحسب أيضًا في منافسة واحدة أخرى، لمرشحي ذلك الحزب.
    [two] التصويت هنا يُحسب أيضًا في منافستين أخريين، لمرشحي ذلك الحزب.
    [few] التصويت هنا يُحسب أيضًا في { $count } منافسات أخرى، لمرشحي ذلك الحزب.
    [many] التصويت هنا يُحسب أيضًا في { $count } منافسة أخرى، لمرشحي ذلك الحزب.
   *[other] التصويت هنا يُحسب أيضًا في { $count } منافسة أخرى، لمرشحي ذلك الحزب.
}
paper-affects-activation = إجابتك قد تحدد هل تُحسب هذه المنافسة أم لا: { $contests }.
paper-rank-heading = { $rank }
paper-write-in = كتابة اسم
paper-continued = { $title } (تابع)
paper-turn-over = يُرجى قلب الورقة.
paper-next-sheet = يُرجى المتابعة في الورقة { $sheet }.
paper-last = نهاية بطاقة الاقتراع.
paper-sheet = الورقة { $sheet } من { $sheets }
paper-date = { $day } { $month ->
    [1] يناير
    [2] فبراير
    [3] مارس
    [4] أبريل
    [5] مايو
    [6] يونيو
    [7] يوليو
    [8] أغسطس
    [9] سبتمبر
    [10] أكتوبر
    [11] نوفمبر
   *[other] ديسمبر
} { $year }
paper-state-test = بطاقة اقتراع للاختبار
paper-state-demo = عرض تجريبي. ليست بطاقة اقتراع.
