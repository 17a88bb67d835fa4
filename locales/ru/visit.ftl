# What a voter reads and hears, Russian. A ".heard" attribute is said where it differs from what is read.
# Unreviewed: a certified translator must check it before use.
plain = { $text }

# The bar at the bottom, and long lists.
bar-back = Назад
bar-next = Далее
bar-hear-again = Слушать снова
bar-comfort = Размер и звук
bar-help = Помощь
bar-done = Готово
bar-skip = Пропустить
bar-to-review = Назад к проверке
bar-keep = Оставить мой выбор
more-above = Выше ещё { $count }
more-below = Ниже ещё { $count }
state-demo = Демонстрация. Это не настоящий бюллетень.
state-test = Тест. Это не настоящий бюллетень.
notice-no-speech = Звук пропал. Мы позвали сотрудника участка. Вы можете дальше пользоваться экраном.
option-place = Вариант { $option } из { $options }.
block-rows = От { $first } до { $last }: сначала { $from }, в конце { $to }.
block-back-one = Назад к последней строке
block-start = Снова к началу этих строк
group = Ещё: { $items }.

# The screen that a voter has hidden.
cover-line = Слушайте в наушниках. Касания выключены.
said-covered = Экран скрыт. Касания выключены.
said-hidden = Да. Ваш экран скрыт.
said-shown = Нет. Ваш экран виден.
screen-is-hidden = экран скрыт
screen-is-shown = экран виден
hide-needs-voice = Сначала включите речь. Потом можно скрыть экран.
ask-hide-heading = Скрыть экран?
ask-hide-line = Тогда касания выключатся. Вам понадобятся клавиши или кнопки.
ask-hide-yes = Да, скрыть
ask-hide-no = Нет, оставить

# Listening to a screen.
listen-heading = Слушать этот экран
listen-on = Следующая фраза
listen-back = Предыдущая фраза
listen-pause = Пауза
listen-go-on = Продолжить
listen-start = С начала
listen-spell = Имя по буквам
listen-hidden = Мой экран скрыт?
nothing-to-spell = Здесь нет имени, чтобы читать его по буквам.

# Time.
more-time-heading = Вам нужно больше времени?
more-time-line = Чтобы продолжить, нажмите любую кнопку. Ваш выбор сохранён.
more-time-yes = Да, мне нужно больше времени

# Switches and presses.
comfort-hide = Скрыть экран
comfort-show = Показать экран
comfort-presses = Кнопки и нажатия
presses-heading = Кнопки и нажатия
presses-line = Измените это, если нажатия не получаются.
one-switch = Использовать одну кнопку
two-switches = Использовать две кнопки
has-one-switch = одна кнопка: аппарат сам идёт дальше
has-two-switches = две кнопки
scan-faster = Идти дальше быстрее
scan-slower = Идти дальше медленнее
scan-step = ожидание { $step } из { $steps }
accept-longer = Считать только долгие нажатия
accept-shorter = Считать и короткие нажатия
accept-step = длина { $step } из { $steps }
ignore-longer = Дольше ждать между нажатиями
ignore-shorter = Меньше ждать между нажатиями
ignore-step = ожидание { $step } из { $steps }
offer-heading = Сделать нажатия легче?
offer-accept = Некоторые нажатия были очень короткими. Аппарат может их пропускать.
offer-ignore = Некоторые нажатия были двойными. Аппарат может пропускать второе.
offer-scan = Аппарат может идти дальше в вашем темпе.
offer-yes = Да, сделать так
offer-no = Нет, оставить как есть

# Opening.
opening-heading = Добро пожаловать. Заполните здесь свой бюллетень.
opening-precinct = Ваш участок: { $precinct }
opening-party = Партия: { $party }
opening-how = Чтобы продолжить, нажмите любую кнопку.
opening-begin = Начать
opening-not-mine = Это не мой бюллетень

# Languages.
languages-heading = Выберите язык
language-name = Русский
language-chosen = Выбран русский язык.
state-chosen = выбрано
state-not-chosen = не выбрано

# Comfort.
comfort-heading = Размер, цвет и звук
comfort-line = Их можно изменить в любое время. Ваш выбор не пропадёт.
comfort-larger = Буквы крупнее
comfort-smaller = Буквы мельче
comfort-colours = Сменить цвета
comfort-speech-on = Включить речь
comfort-speech-off = Выключить речь
comfort-faster = Говорить быстрее
comfort-slower = Говорить медленнее
comfort-louder = Громче
comfort-softer = Тише
comfort-language = Сменить язык
size-small = мелкие буквы
size-medium = средние буквы
size-large = крупные буквы
size-largest = самые крупные буквы
size-is-most = Этот экран не может показать более крупные буквы.
palette-dark-on-light = чёрное на белом
palette-light-on-dark = белое на чёрном
palette-yellow-on-dark = жёлтое на чёрном
palette-low-contrast = мягкие цвета
pace-step = скорость { $step } из { $steps }
loudness-step = громкость { $step } из { $steps }
speech-is-on = речь включена
speech-is-off = речь выключена

# Practice and how to vote.
practice-heading = Сначала попробуйте
practice-line = Что вам больше нравится? Выберите что-то одно. В вашем бюллетене этого нет.
practice-first = Яблоко
practice-second = Банан
practice-third = Вишня
practice-full = Здесь можно выбрать только одно. Сначала отмените то, что вы выбрали.
practice-chosen = Выбрано. Чтобы отменить, выберите ещё раз.
practice-undone = Выбор отменён.
how-to-heading = Как голосовать
how-to-choose = Выберите имя. Его овал станет чёрным.
how-to-undo = Чтобы отменить, выберите это имя ещё раз.
how-to-leave = Любой раздел можно оставить пустым.
how-to-review = В конце вы можете посмотреть весь свой выбор и изменить его.
how-to-paper = Потом вы напечатаете бюллетень на бумаге и проверите его.

# A contest.
contest-place = Раздел { $contest } из { $contests }
limit-one = Выберите 1
limit-many = Выберите не больше { $limit }
limit-any = Выбирайте сколько хотите
limit-ranks = Расставьте по местам не больше { $limit }. Место 1 — ваш лучший выбор.
limit-measure = Выберите 1 ответ
count-chosen = { $chosen ->
    [0] Вы ещё ничего не выбрали.
   *[other] Вы выбрали: { $chosen } из { $limit }.
} { $left ->
    [0] Больше выбрать нельзя.
   *[other] Можно выбрать ещё: { $left }.
}
count-ranked = { $chosen ->
    [0] Вы ещё не дали ни одного места.
    [one] Вы дали { $chosen } место из { $limit }.
    [few] Вы дали { $chosen } места из { $limit }.
    [many] Вы дали { $chosen } мест из { $limit }.
   *[other] Вы дали { $chosen } места из { $limit }.
} { $left ->
    [0] Больше мест дать нельзя.
    [one] Можно дать ещё { $left } место.
    [few] Можно дать ещё { $left } места.
    [many] Можно дать ещё { $left } мест.
   *[other] Можно дать ещё { $left } места.
}
affects-party = { $count ->
    [one] Ваш выбор здесь засчитают и за кандидатов этой партии. Это ещё { $count } раздел бюллетеня. Там вы всё равно можете выбирать.
    [few] Ваш выбор здесь засчитают и за кандидатов этой партии. Это ещё { $count } раздела бюллетеня. Там вы всё равно можете выбирать.
    [many] Ваш выбор здесь засчитают и за кандидатов этой партии. Это ещё { $count } разделов бюллетеня. Там вы всё равно можете выбирать.
   *[other] Ваш выбор здесь засчитают и за кандидатов этой партии. Это ещё { $count } раздела бюллетеня. Там вы всё равно можете выбирать.
}
affects-activation = От вашего ответа может зависеть, засчитают ли этот раздел: { $contests }. Там вы всё равно можете голосовать.
read-full-text = Читать полный текст
full-text-heading = Полный текст: { $title }
write-in-row = Вписать имя
write-in-named = Вписанное имя: { $name }
write-in-blank = Пустая строка для имени
state-rank = место { $rank }
state-no-rank = без места
said-chosen = Выбрано: { $name }.
said-undone = Выбор отменён: { $name }.
said-ranked = { $name }: теперь место { $rank }.

# The limit.
limit-heading = { $limit ->
   *[other] Вы выбрали: { $limit }. Больше здесь выбрать нельзя.
}
limit-line = Вы хотите выбрать: { $wanted }. Сначала отмените что-то одно из этого списка.
undo-option = Отменить: { $name }

# Ranks.
rank-pick-heading = { $name }: какое место?
rank-free = Место { $rank }
rank-taken = Место { $rank } занято: { $name }.
rank-change-heading = { $name }: у вас это место { $rank }
rank-undo = Отменить этот выбор
rank-move = Поставить на место { $rank }
lower-heading = Поднять тех, кто ниже?
lower-line = Вы отменяете один выбор. Те, кто ниже, могут подняться выше или остаться на своих местах.
lower-move-up = Поднять их
lower-stay = Оставить как есть

# Writing in.
write-in-heading = Впишите имя и фамилию
write-in-line = Впишите только то имя, которого нет в списке.
write-in-so-far = Пока написано: { $name }
write-in-nothing = Пока ничего не написано.
keys-row = от { $first } до { $last }
key-name = { $letter }
key-written = { $letter }
key-refused = { $letter } не помещается. Строка заполнена.
write-in-delete = Стереть последнюю букву
write-in-deleted = Стёрто: { $letter }
write-in-no-letter = Стирать нечего: букв нет.
write-in-spell = Слушать по буквам
write-in-spelled = { $letters }
write-in-finish = Имя готово
blank-heading = Вы не вписали имя
blank-line = Пустую строку для имени могут не засчитать.
blank-write = Вписать имя
blank-keep = Оставить отметку без имени
blank-undo = Не вписывать имя
write-in-change-heading = Вы вписали имя
write-in-edit = Изменить имя
write-in-undo = Отменить вписанное имя

# Review and print.
review-heading = Проверьте свой выбор
review-complete = { $complete ->
   *[other] Готово разделов: { $complete } из { $contests }.
}
review-left = { $left ->
    [one] { $left } раздел заполнен не до конца. Смотрите в начале списка. Если хотите, можно оставить так.
    [few] { $left } раздела заполнены не до конца. Смотрите в начале списка. Если хотите, можно оставить так.
    [many] { $left } разделов заполнены не до конца. Смотрите в начале списка. Если хотите, можно оставить так.
   *[other] { $left } раздела заполнены не до конца. Смотрите в начале списка. Если хотите, можно оставить так.
}
review-how = Чтобы изменить выбор, выберите нужный раздел.
review-title = { $contest }. { $title }
review-nothing = Ничего не выбрано
review-chosen = { $names }
review-more-left = { $left ->
   *[other] Можно выбрать ещё: { $left }.
}
review-full = Готово.
review-ranked = место { $rank }: { $name }
review-print = Печать
ask-print-heading = Напечатать бюллетень сейчас?
ask-print-line = После печати этот бумажный бюллетень нельзя изменить. Вы проверите его, а потом опустите в урну.
ask-print-left = { $left ->
    [one] { $left } раздел всё ещё заполнен не до конца.
    [few] { $left } раздела всё ещё заполнены не до конца.
    [many] { $left } разделов всё ещё заполнены не до конца.
   *[other] { $left } раздела всё ещё заполнены не до конца.
}
ask-print-yes = Да, напечатать бюллетень
ask-print-no = Нет, назад к моему выбору
printing-heading = Ваш бюллетень печатается
printing-line = Пожалуйста, подождите.
print-fault-heading = Ваш бюллетень не напечатан
fault-paper = В принтере нет бумаги.
fault-jam = В принтере застряла бумага.
fault-offline = Принтер не отвечает.
fault-not-made = Не удалось подготовить бюллетень к печати.
fault-kept = Вы в этом не виноваты. Ваш выбор сохранён. Сотрудник участка может помочь.
print-again = Печатать ещё раз
call-worker = Позвать сотрудника

# The paper.
reading-heading = Аппарат читает ваш бюллетень
reading-line = Пожалуйста, подождите.
read-fault-heading = Не удалось прочитать ваш бюллетень
fault-no-sheet = Лист не найден.
fault-unreadable = Отметки на листе нечёткие.
fault-other-ballot = Это лист из другого бюллетеня.
fault-print-differs = На листе что-то не так, как должно быть. Не используйте этот лист.
read-again = Прочитать ещё раз
new-sheet = Получить новый бюллетень
check-heading = В бумажном бюллетене всё верно?
check-line = Посмотрите каждый раздел на бумаге или послушайте, что там стоит. Бюллетень ещё не опущен в урну.
check-sheets = { $sheets ->
    [one] Ваш бюллетень занимает { $sheets } лист.
    [few] Ваш бюллетень занимает { $sheets } листа.
    [many] Ваш бюллетень занимает { $sheets } листов.
   *[other] Ваш бюллетень занимает { $sheets } листа.
}
check-yes = Да, всё верно
check-no = Нет, что-то не так
check-read = Прочитать вслух
read-back-heading = Вот что стоит в вашем бюллетене
read-back-line = Эти слова прочитаны с бумаги.
paper-contest = { $title }
paper-nothing = Ничего не отмечено
paper-marked = Отмечено: { $names }
paper-ranked = { $names }
paper-rank = место { $rank }, { $name }
paper-doubt = Одна отметка здесь нечёткая. Пожалуйста, посмотрите на неё.
paper-write-in-read = вписанное имя { $name }
paper-write-in-unread = рукописное или напечатанное имя, которое я не могу прочитать
paper-write-in-none = пустая строка для имени
differs-heading = В бумажном бюллетене не то, что вы выбрали
differs-line = Не используйте этот бюллетень. Вы в этом не виноваты. Получите новый бюллетень или позовите сотрудника участка.
differs-where = Посмотрите здесь: { $contests }
spoil-heading = Получить новый бюллетень
spoil-device-heading = Вы получите новый бюллетень
spoil-line = Не опускайте в урну бюллетень, который у вас сейчас. Отдайте его сотруднику участка. Что вы хотите сделать?
spoil-left = { $left ->
    [one] Здесь вы можете получить ещё { $left } новый бюллетень.
    [few] Здесь вы можете получить ещё { $left } новых бюллетеня.
    [many] Здесь вы можете получить ещё { $left } новых бюллетеней.
   *[other] Здесь вы можете получить ещё { $left } нового бюллетеня.
}
spoil-none = Вы уже получили все новые бюллетени, которые этот аппарат может для вас напечатать. Сотрудник участка может вам помочь.
spoil-keep = Оставить мой выбор и исправить его
spoil-fresh = Начать заново с пустого бюллетеня
spoil-cancel = Назад, в бюллетене всё верно
done-heading = Ваш бюллетень напечатан. Он ещё не опущен в урну.
done-line = Отнесите бюллетень к урне или к сканеру бюллетеней. Его засчитают, только когда вы его туда опустите.
done-sheets = { $sheets ->
    [one] Вам нужно опустить { $sheets } лист.
    [few] Вам нужно опустить { $sheets } листа. Опустите их все.
    [many] Вам нужно опустить { $sheets } листов. Опустите их все.
   *[other] Вам нужно опустить { $sheets } листа. Опустите их все.
}
done-thanks = В этом аппарате голоса не хранятся. Спасибо.
done-leave = Бюллетень у меня. Всё готово.

# Help and the worker.
help-heading = Чем вам помочь?
help-explain = Объяснить этот экран
help-worker = Позвать сотрудника
explain-heading = Об этом экране
worker-heading = Экран скрыт
worker-line = Мы позвали сотрудника участка. Ваш выбор сохранён. Никто не может его увидеть.
worker-asked = Избиратель просит помощи.
worker-not-mine = Избиратель говорит: это не мой бюллетень.
worker-replacements = Избирателю нужен ещё один новый бюллетень.
worker-device = Устройству нужна помощь сотрудника.
worker-no-press = Уже некоторое время никто не нажимал кнопки.
worker-came = Сотрудник участка пришёл. Ваш выбор скрыт и сохранён.
worker-return = Вернуться туда, где был избиратель
worker-here = Сотрудник здесь
worker-end = Сотрудник: завершить сеанс
confirm-end-heading = Завершить этот сеанс?
confirm-end-line = Весь выбор будет стёрт. Если напечатан лист, его нужно вынуть.
confirm-end-yes = Да, завершить сеанс
confirm-end-no = Нет, назад
ended-heading = Сеанс завершён
ended-line = Ничего не сохранено.

# What each screen is for.
explain-opening = Этот экран показывает, какой бюллетень вы будете заполнять. Если он не ваш, сообщите об этом здесь.
explain-languages = Выберите язык, на котором вы хотите читать и слушать.
explain-comfort = Сделайте буквы крупнее, смените цвета или измените речь.
explain-presses = Здесь можно изменить, как работают ваши кнопки и нажатия.
explain-hide = Скройте экран, если вы слушаете и не хотите, чтобы кто-то видел ваш выбор.
explain-practice = Здесь можно попробовать, как выбирать. Это не засчитывается.
explain-how-to = Здесь написано, как голосовать.
explain-contest = Это один раздел вашего бюллетеня. Выберите имена, которые хотите. Потом выберите «Далее».
explain-limit = Вы выбрали столько, сколько можно. Если хотите выбрать другое, отмените что-то одно.
explain-rank = Здесь вы расставляете людей по местам. Место 1 — ваш лучший выбор.
explain-write-in = Здесь вы пишете имя клавишами на экране.
explain-full-text = Это полный текст вопроса.
explain-review = Это весь ваш выбор. Чтобы изменить его, выберите раздел. Когда будете готовы, выберите «Печать».
explain-print = Принтер ставит отметки в бумажном бюллетене за вас.
explain-fault = Что-то случилось с устройством. Вы в этом не виноваты. Сотрудник участка может помочь.
explain-paper = Проверьте здесь свой бумажный бюллетень. Его можно посмотреть или послушать.
explain-spoil = Если в бумажном бюллетене что-то не так, вы можете получить новый.
explain-done = Ваш бюллетень готов. Возьмите его и опустите в урну или в сканер.
explain-switches = Если у вас две кнопки: первая переходит к следующей строке. Вторая выбирает её. Если у вас одна кнопка: аппарат сам идёт дальше. Нажмите, когда услышите то, что хотите.
explain-keys = Если у вас клавиши: стрелки ведут вверх и вниз. Клавиша Enter выбирает. Клавиша P останавливает речь и продолжает её. Клавиша S читает имя по буквам.
explain-touch = Пальцем по экрану: коснитесь того, что хотите.

# Joining, letters and names.
list-separator = { ", " }
ticket-separator = { " и " }
letter-space = пробел
letter-hyphen = дефис
letter-apostrophe = апостроф
letter-period = точка
letter-a-acute = Á
    .heard = A со знаком ударения
letter-e-acute = É
    .heard = E со знаком ударения
letter-i-acute = Í
    .heard = I со знаком ударения
letter-o-acute = Ó
    .heard = O со знаком ударения
letter-u-acute = Ú
    .heard = U со знаком ударения
letter-n-tilde = Ñ
    .heard = N с волной сверху
letter-u-diaeresis = Ü
    .heard = U с двумя точками
letter-a-diaeresis = Ä
    .heard = A с двумя точками
letter-e-diaeresis = Ë
    .heard = E с двумя точками
letter-i-diaeresis = Ï
    .heard = I с двумя точками
letter-o-diaeresis = Ö
    .heard = O с двумя точками
letter-c-cedilla = Ç
    .heard = C с хвостиком
