# What stands on the paper ballot beside the election's own texts, Russian.
# Unreviewed: a certified translator must check it before use.
paper-style = Тип бюллетеня { $style }
paper-how-heading = Как заполнить этот бюллетень
paper-how-fill = Полностью закрасьте овал рядом с вашим выбором. Пользуйтесь чёрной или синей ручкой.
paper-how-write = Чтобы голосовать за человека, которого нет в списке, закрасьте овал и впишите имя и фамилию над чертой.
paper-how-mistake = Если вы ошиблись, попросите новый бюллетень.
paper-limit-one = Выберите 1
paper-limit-many = Выберите не больше { $limit }
paper-limit-any = Выбирайте сколько хотите
paper-limit-ranks = Расставьте по местам не больше { $limit }. Столбец 1 — для вашего лучшего выбора. Закрасьте не больше одного овала в каждой строке и в каждом столбце.
paper-limit-measure = Выберите 1 ответ
paper-affects-party = { $count ->
    [one] Голос здесь засчитают и за кандидатов этой партии. Это ещё { $count } раздел бюллетеня.
    [few] Голос здесь засчитают и за кандидатов этой партии. Это ещё { $count } раздела бюллетеня.
    [many] Голос здесь засчитают и за кандидатов этой партии. Это ещё { $count } разделов бюллетеня.
   *[other] Голос здесь засчитают и за кандидатов этой партии. Это ещё { $count } раздела бюллетеня.
}
paper-affects-activation = От вашего ответа может зависеть, засчитают ли этот раздел: { $contests }.
paper-rank-heading = { $rank }
paper-write-in = Вписать имя
paper-continued = { $title } (продолжение)
paper-turn-over = Переверните лист.
paper-next-sheet = Дальше — лист { $sheet }.
paper-last = Конец бюллетеня.
paper-sheet = Лист { $sheet } из { $sheets }
paper-date = { $day } { $month ->
    [1] января
    [2] февраля
    [3] марта
    [4] апреля
    [5] мая
    [6] июня
    [7] июля
    [8] августа
    [9] сентября
    [10] октября
    [11] ноября
   *[other] декабря
} { $year } г.
paper-state-test = Тестовый бюллетень
paper-state-demo = Демонстрация. Это не бюллетень.
