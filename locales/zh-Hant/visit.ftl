# What a voter reads and hears, Chinese (Traditional). A ".heard" attribute is said where it differs from what is read.
# Unreviewed: a certified translator must check it before use.
plain = { $text }

# The bar at the bottom, and long lists.
bar-back = 返回
bar-next = 下一步
bar-hear-again = 再聽一次
bar-comfort = 大小和聲音
bar-help = 幫助
bar-done = 完成
bar-skip = 跳過
bar-to-review = 返回檢查
bar-keep = 保留我的選擇
more-above = 上面還有 { $count } 項
more-below = 下面還有 { $count } 項
state-demo = 示範。這不是真的選票。
state-test = 測試。這不是真的選票。
notice-no-speech = 聲音停了。已呼叫工作人員。您可以看螢幕繼續。
option-place = 第 { $option } 個選項，共 { $options } 個。
block-rows = 第 { $first } 到第 { $last } 項：從 { $from } 到 { $to }。
block-back-one = 返回最後一項
block-start = 返回這組的第一項
group = 更多：{ $items }。

# The screen that a voter has hidden.
cover-line = 請用耳機聽。觸控已關閉。
said-covered = 畫面已隱藏。觸控已關閉。
said-hidden = 是。您的畫面已隱藏。
said-shown = 否。您的畫面看得見。
screen-is-hidden = 畫面已隱藏
screen-is-shown = 畫面已顯示
hide-needs-voice = 請先開啟語音。然後您可以隱藏畫面。
ask-hide-heading = 要隱藏畫面嗎？
ask-hide-line = 隱藏以後，觸控會關閉。您需要使用按鍵或開關。
ask-hide-yes = 是，隱藏畫面
ask-hide-no = 否，保留畫面

# Listening to a screen.
listen-heading = 聽這個畫面
listen-on = 下一句
listen-back = 上一句
listen-pause = 暫停
listen-go-on = 繼續
listen-start = 從頭開始
listen-spell = 拼讀姓名
listen-hidden = 我的畫面已隱藏嗎？
nothing-to-spell = 這裡沒有可以拼讀的姓名。

# Time.
more-time-heading = 您需要更多時間嗎？
more-time-line = 請按任何一個按鈕繼續。您的選擇已保留。
more-time-yes = 是，我需要更多時間

# Switches and presses.
comfort-hide = 隱藏畫面
comfort-show = 顯示畫面
comfort-presses = 開關和按壓
presses-heading = 開關和按壓
presses-line = 如果您按得不順，請更改這些設定。
one-switch = 使用一個開關
two-switches = 使用兩個開關
has-one-switch = 一個開關：機器自動移到下一項
has-two-switches = 兩個開關
scan-faster = 移動快一點
scan-slower = 移動慢一點
scan-step = 等待第 { $step } 級，共 { $steps } 級
accept-longer = 只算較長的按壓
accept-shorter = 較短的按壓也算
accept-step = 長度第 { $step } 級，共 { $steps } 級
ignore-longer = 兩次按壓之間多等一點
ignore-shorter = 兩次按壓之間少等一點
ignore-step = 等待第 { $step } 級，共 { $steps } 級
offer-heading = 要讓按壓更容易嗎？
offer-accept = 有幾次按得很短。這台機器可以不算這幾次。
offer-ignore = 有幾次按成了兩下。這台機器可以不算第二下。
offer-scan = 這台機器可以照您的速度移到下一項。
offer-yes = 是，就這樣做
offer-no = 否，不要更改

# Opening.
opening-heading = 歡迎。請在這裡標記您的選票。
opening-precinct = 您的選區：{ $precinct }
opening-party = 政黨：{ $party }
opening-how = 請按任何一個按鈕繼續。
opening-begin = 開始
opening-not-mine = 這不是我的選票

# Languages.
languages-heading = 請選擇您的語言
language-name = 繁體中文
language-chosen = 已選繁體中文。
state-chosen = 已選
state-not-chosen = 未選

# Comfort.
comfort-heading = 大小、顏色和聲音
comfort-line = 您隨時可以更改這些設定。您的選擇不會消失。
comfort-larger = 放大文字
comfort-smaller = 縮小文字
comfort-colours = 更改顏色
comfort-speech-on = 開啟語音
comfort-speech-off = 關閉語音
comfort-faster = 說快一點
comfort-slower = 說慢一點
comfort-louder = 大聲一點
comfort-softer = 小聲一點
comfort-language = 更改語言
size-small = 小字
size-medium = 中字
size-large = 大字
size-largest = 最大字
size-is-most = 這個螢幕無法顯示更大的字。
palette-dark-on-light = 白底黑字
palette-light-on-dark = 黑底白字
palette-yellow-on-dark = 黑底黃字
palette-low-contrast = 柔和顏色
pace-step = 語速第 { $step } 級，共 { $steps } 級
loudness-step = 音量第 { $step } 級，共 { $steps } 級
speech-is-on = 語音已開啟
speech-is-off = 語音已關閉

# Practice and how to vote.
practice-heading = 先試一試
practice-line = 您喜歡哪一種水果？請選一種。這不在您的選票上。
practice-first = 蘋果
practice-second = 香蕉
practice-third = 櫻桃
practice-full = 這裡只能選一種。請先取消您已選的那一種。
practice-chosen = 已選。要取消，請再選它一次。
practice-undone = 已取消，現在未選。
how-to-heading = 如何投票
how-to-choose = 選一個姓名。旁邊的橢圓圈會變黑。
how-to-undo = 要取消，請再選它一次。
how-to-leave = 任何選舉項目都可以留空。
how-to-review = 最後您可以看到自己所有的選擇，也可以更改。
how-to-paper = 然後您把選票列印在紙上，並檢查這份紙本選票。

# A contest.
contest-place = 第 { $contest } 個選舉項目，共 { $contests } 個
limit-one = 請選 1 項
limit-many = 最多可選 { $limit } 項
limit-any = 想選多少項都可以
limit-ranks = 最多可排序 { $limit } 項。第 1 選擇是您最喜歡的。
limit-measure = 請選 1 個答案
count-chosen = { $chosen ->
    [0] 您還沒有選。
   *[other] 您已選 { $chosen } 項，最多可選 { $limit } 項。
}{ $left ->
    [0] 不能再選了。
   *[other] 還可以選 { $left } 項。
}
count-ranked = { $chosen ->
    [0] 您還沒有排序。
   *[other] 您已排序 { $chosen } 項，最多可排序 { $limit } 項。
}{ $left ->
    [0] 不能再排序了。
   *[other] 還可以排序 { $left } 項。
}
affects-party = 您在這裡的選擇，也會算在另外 { $count } 個選舉項目中，投給那個政黨的人選。您仍然可以在那些項目中選擇。
affects-activation = 您的答案可能決定以下選舉項目是否算數：{ $contests }。您仍然可以在該項目中投票。
read-full-text = 閱讀全文
full-text-heading = 全文：{ $title }
write-in-row = 自填姓名
write-in-named = 自填：{ $name }
write-in-blank = 自填但沒有姓名
state-rank = 第 { $rank } 選擇
state-no-rank = 未排序
said-chosen = 已選：{ $name }。
said-undone = 已取消：{ $name }。
said-ranked = { $name } 現在是第 { $rank } 選擇。

# The limit.
limit-heading = 您已選 { $limit } 項。這裡最多只能選 { $limit } 項。
limit-line = 要選 { $wanted }，請先取消以下其中一項。
undo-option = 取消 { $name }

# Ranks.
rank-pick-heading = { $name } 是您的第幾選擇？
rank-free = 第 { $rank } 選擇
rank-taken = 第 { $rank } 選擇是 { $name }。
rank-change-heading = { $name } 是您的第 { $rank } 選擇
rank-undo = 取消這個選擇
rank-move = 改為第 { $rank } 選擇
lower-heading = 要把後面的選擇往前移嗎？
lower-line = 您要取消一個選擇。排在它後面的選擇可以往前移，也可以留在原位。
lower-move-up = 往前移
lower-stay = 留在原位

# Writing in.
write-in-heading = 自填姓名
write-in-line = 只填寫名單上沒有的姓名。
write-in-so-far = 目前已填：{ $name }
write-in-nothing = 還沒有填寫。
keys-row = { $first } 到 { $last }
key-name = { $letter }
key-written = { $letter }
key-refused = { $letter } 放不下。姓名已填滿。
write-in-delete = 刪除最後一個字母
write-in-deleted = 已刪除：{ $letter }
write-in-no-letter = 沒有字母可以刪除。
write-in-spell = 逐個聽字母
write-in-spelled = { $letters }
write-in-finish = 姓名填好了
blank-heading = 您沒有填寫姓名
blank-line = 自填但沒有姓名，可能不算數。
blank-write = 填寫姓名
blank-keep = 保留標記，不填姓名
blank-undo = 不使用自填
write-in-change-heading = 您自填了一個姓名
write-in-edit = 更改姓名
write-in-undo = 取消自填

# Review and print.
review-heading = 檢查您的選擇
review-complete = 共有 { $contests } 個選舉項目，您已完成 { $complete } 個。
review-left = 有 { $left } 個選舉項目還可以再選，排在最前面。如果您想這樣，也沒有問題。
review-how = 要更改選擇，請選那個選舉項目。
review-title = { $contest }. { $title }
review-nothing = 沒有選擇
review-chosen = { $names }
review-more-left = 還可以選 { $left } 項。
review-full = 已完成。
review-ranked = 第 { $rank } 選擇：{ $name }
review-print = 列印
ask-print-heading = 現在列印您的選票嗎？
ask-print-line = 列印以後，您不能更改這份紙本選票。投出之前，您會先檢查。
ask-print-left = 有 { $left } 個選舉項目還可以再選。
ask-print-yes = 是，列印我的選票
ask-print-no = 否，返回我的選擇
printing-heading = 正在列印您的選票
printing-line = 請等一等。
print-fault-heading = 您的選票沒有印出來
fault-paper = 印表機沒有紙。
fault-jam = 印表機卡紙了。
fault-offline = 印表機沒有回應。
fault-not-made = 無法準備好要列印的選票。
fault-kept = 這不是您的錯。您的選擇已保留。工作人員可以幫忙。
print-again = 再試列印一次
call-worker = 呼叫工作人員

# The paper.
reading-heading = 這台機器正在讀取您的紙本選票
reading-line = 請等一等。
read-fault-heading = 無法讀取您的紙本選票
fault-no-sheet = 找不到選票紙。
fault-unreadable = 選票紙上的標記不清楚。
fault-other-ballot = 這張選票紙屬於另一份選票。
fault-print-differs = 這張選票紙上有地方不對。請不要使用這張選票紙。
read-again = 再讀取紙本選票
new-sheet = 領取新選票
check-heading = 您的紙本選票正確嗎？
check-line = 請看紙本選票上的每個選舉項目，或聽機器讀出來。選票還沒有投出。
check-sheets = 您的選票共有 { $sheets } 張選票紙。
check-yes = 是，正確
check-no = 否，有地方不對
check-read = 讀給我聽
read-back-heading = 這是您紙本選票上的內容
read-back-line = 這些內容是從紙上讀出來的。
paper-contest = { $title }
paper-nothing = 沒有標記
paper-marked = 已標記：{ $names }
paper-ranked = { $names }
paper-rank = 第 { $rank } 選擇，{ $name }
paper-doubt = 這裡有一個標記不清楚。請看一看。
paper-write-in-read = 自填 { $name }
paper-write-in-unread = 一個我讀不出來的手寫或打字姓名
paper-write-in-none = 自填但沒有姓名
differs-heading = 紙本選票和您的選擇不一樣
differs-line = 請不要使用這份紙本選票。這不是您的錯。請領取新選票，或呼叫工作人員。
differs-where = 請看：{ $contests }
spoil-heading = 領取新選票
spoil-device-heading = 您會領到一份新選票
spoil-line = 請不要投出您手上的選票。請把它交給工作人員。您想怎麼做？
spoil-left = 您在這裡還可以領取 { $left } 份新選票。
spoil-none = 這台機器可以為您列印的新選票，您已全部領完。工作人員可以幫您。
spoil-keep = 保留我的選擇，再改正
spoil-fresh = 不保留選擇，重新開始
spoil-cancel = 返回，紙本選票正確
done-heading = 您的選票已列印。還沒有投出。
done-line = 請把紙本選票拿到投票箱或選票掃描機。投入以後才算數。
done-sheets = { $sheets ->
    [1] 您有 { $sheets } 張選票紙要投入。
   *[other] 您有 { $sheets } 張選票紙要投入。每一張都要投入。
}
done-thanks = 這台機器不儲存任何投票紀錄。謝謝您。
done-leave = 我已拿到紙本選票。我完成了。

# Help and the worker.
help-heading = 您需要什麼幫助？
help-explain = 說明這個畫面
help-worker = 呼叫工作人員
explain-heading = 關於這個畫面
worker-heading = 畫面已隱藏
worker-line = 已呼叫工作人員。您的選擇已保留。沒有人能看到。
worker-asked = 選民請求幫助。
worker-not-mine = 選民說：這不是我的選票。
worker-replacements = 選民想再領一份新選票。
worker-device = 有設備需要工作人員處理。
worker-no-press = 已有一段時間沒有人按按鈕。
worker-came = 工作人員已到。您的選擇已隱藏並保留。
worker-return = 返回選民原來的畫面
worker-here = 工作人員在這裡
worker-end = 工作人員：結束這次使用
confirm-end-heading = 結束這次使用嗎？
confirm-end-line = 所有選擇都會清除。如有已列印的選票紙，必須取出。
confirm-end-yes = 是，結束這次使用
confirm-end-no = 否，返回
ended-heading = 這次使用已結束
ended-line = 沒有保留任何內容。

# What each screen is for.
explain-opening = 這個畫面顯示您要標記哪一份選票。如果不是您的選票，請在這裡告訴我們。
explain-languages = 請選擇您想看和想聽的語言。
explain-comfort = 您可以放大文字、更改顏色或更改語音。
explain-presses = 您在這裡可以更改開關和按壓的方式。
explain-hide = 如果您用聽的，又不想讓人看到您的選擇，請隱藏畫面。
explain-practice = 您可以在這裡練習怎樣選擇。這不算數。
explain-how-to = 這幾行字告訴您如何投票。
explain-contest = 這是您選票上的一個選舉項目。請選您想選的姓名。然後按「下一步」繼續。
explain-limit = 您已選滿，不能再選。如果想選另一項，請先取消一項。
explain-rank = 您在這裡給人選排序。第 1 選擇是您最喜歡的。
explain-write-in = 您在這裡用螢幕上的按鍵填寫姓名。
explain-full-text = 這是這個問題的全文。
explain-review = 這是您所有的選擇。要更改，請選那個選舉項目。準備好以後，請選「列印」。
explain-print = 印表機會為您標記紙本選票。
explain-fault = 有設備出了問題。這不是您的錯。工作人員可以幫忙。
explain-paper = 請在這裡檢查您的紙本選票。您可以看，也可以聽上面的內容。
explain-spoil = 如果您的紙本選票不對，您可以領取一份新的。
explain-done = 您的紙本選票已準備好。請拿好，並投入投票箱或選票掃描機。
explain-switches = 使用兩個開關：第一個移到下一項。第二個選擇這一項。使用一個開關：機器自動移到下一項。聽到您想要的，請按開關。
explain-keys = 使用按鍵：箭頭鍵上下移動。Enter 鍵選擇。P 鍵停止語音，也讓語音繼續。S 鍵拼讀姓名。
explain-touch = 使用觸控：觸碰您想選的內容。

# Joining, letters and names.
list-separator = { "、" }
ticket-separator = { " 和 " }
letter-space = 空格
letter-hyphen = 連字號
letter-apostrophe = 撇號
letter-period = 句點
letter-a-acute = Á
    .heard = 帶重音符號的 A
letter-e-acute = É
    .heard = 帶重音符號的 E
letter-i-acute = Í
    .heard = 帶重音符號的 I
letter-o-acute = Ó
    .heard = 帶重音符號的 O
letter-u-acute = Ú
    .heard = 帶重音符號的 U
letter-n-tilde = Ñ
    .heard = 帶波浪符號的 N
letter-u-diaeresis = Ü
    .heard = 帶兩點的 U
letter-a-diaeresis = Ä
    .heard = 帶兩點的 A
letter-e-diaeresis = Ë
    .heard = 帶兩點的 E
letter-i-diaeresis = Ï
    .heard = 帶兩點的 I
letter-o-diaeresis = Ö
    .heard = 帶兩點的 O
letter-c-cedilla = Ç
    .heard = 下面帶小鉤的 C
