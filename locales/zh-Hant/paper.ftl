# What stands on the paper ballot beside the election's own texts, Chinese (Traditional).
# Unreviewed: a certified translator must check it before use.
paper-style = 選票樣式 { $style }
paper-how-heading = 如何標記這份選票
paper-how-fill = 請把您的選擇旁邊的橢圓圈全部塗滿。請用黑色或藍色的原子筆。
paper-how-write = 如果要投給名單上沒有的人，請塗滿橢圓圈，並在橫線上方填寫姓名。
paper-how-mistake = 如果填錯了，請要求領取新選票。
paper-limit-one = 請選 1 項
paper-limit-many = 最多可選 { $limit } 項
paper-limit-any = 想選多少項都可以
paper-limit-ranks = 最多可排序 { $limit } 項。第 1 直欄是您最喜歡的。每一橫行和每一直欄最多塗滿一個橢圓圈。
paper-limit-measure = 請選 1 個答案
paper-affects-party = 在這裡投的票，也會算在另外 { $count } 個選舉項目中，投給那個政黨的人選。
paper-affects-activation = 您的答案可能決定以下選舉項目是否算數：{ $contests }。
paper-rank-heading = { $rank }
paper-write-in = 自填姓名
paper-continued = { $title }（續）
paper-turn-over = 請翻面。
paper-next-sheet = 請接著看第 { $sheet } 張選票紙。
paper-last = 選票到此結束。
paper-sheet = 第 { $sheet } 張，共 { $sheets } 張
paper-date = { $year }年{ $month }月{ $day }日
paper-state-test = 測試選票
paper-state-demo = 示範。不是選票。
