# What a voter reads and hears, Vietnamese. A ".heard" attribute is said where it differs from what is read.
# Unreviewed: a certified translator must check it before use.
plain = { $text }

# The bar at the bottom, and long lists.
bar-back = Trở lại
bar-next = Tiếp
bar-hear-again = Nghe lại
bar-comfort = Cỡ chữ và âm thanh
bar-help = Trợ giúp
bar-done = Xong
bar-skip = Bỏ qua
bar-to-review = Về phần xem lại
bar-keep = Giữ lựa chọn của tôi
more-above = Còn { $count } mục ở trên
more-below = Còn { $count } mục ở dưới
state-demo = Trình diễn. Đây không phải là lá phiếu thật.
state-test = Thử nghiệm. Đây không phải là lá phiếu thật.
notice-no-speech = Âm thanh đã ngừng. Đã gọi nhân viên. Quý vị có thể tiếp tục bằng màn hình.
option-place = Mục { $option } trên { $options }.
block-rows = { $first } đến { $last }: từ { $from } đến { $to }.
block-back-one = Trở lại mục cuối
block-start = Trở lại đầu nhóm này
group = Nút khác: { $items }.

# The screen that a voter has hidden.
cover-line = Hãy nghe bằng tai nghe. Chức năng chạm đang tắt.
said-covered = Màn hình đã được che. Chức năng chạm đang tắt.
said-hidden = Có. Màn hình của quý vị đã được che.
said-shown = Không. Người khác có thể thấy màn hình của quý vị.
screen-is-hidden = màn hình đang được che
screen-is-shown = màn hình đang hiện
hide-needs-voice = Trước hết, hãy bật giọng nói. Sau đó quý vị có thể che màn hình.
ask-hide-heading = Che màn hình không?
ask-hide-line = Khi đó chức năng chạm sẽ tắt. Quý vị sẽ cần phím hoặc nút bấm.
ask-hide-yes = Có, che màn hình
ask-hide-no = Không, để nguyên

# Listening to a screen.
listen-heading = Nghe màn hình này
listen-on = Câu tiếp theo
listen-back = Câu trước
listen-pause = Tạm dừng
listen-go-on = Nghe tiếp
listen-start = Từ đầu
listen-spell = Đánh vần tên
listen-hidden = Màn hình của tôi có được che không?
nothing-to-spell = Ở đây không có tên nào để đánh vần.

# Time.
more-time-heading = Quý vị có cần thêm thời gian không?
more-time-line = Nhấn nút bất kỳ để tiếp tục. Các lựa chọn của quý vị vẫn được giữ.
more-time-yes = Có, tôi cần thêm thời gian

# Switches and presses.
comfort-hide = Che màn hình
comfort-show = Hiện màn hình
comfort-presses = Nút bấm và cách nhấn
presses-heading = Nút bấm và cách nhấn
presses-line = Hãy đổi những mục này nếu quý vị nhấn không như ý.
one-switch = Dùng một nút bấm
two-switches = Dùng hai nút bấm
has-one-switch = một nút bấm: máy tự chuyển sang mục kế tiếp
has-two-switches = hai nút bấm
scan-faster = Chuyển nhanh hơn
scan-slower = Chuyển chậm hơn
scan-step = mức chờ { $step } trên { $steps }
accept-longer = Chỉ tính lần nhấn lâu hơn
accept-shorter = Tính cả lần nhấn ngắn hơn
accept-step = độ dài { $step } trên { $steps }
ignore-longer = Chờ lâu hơn giữa các lần nhấn
ignore-shorter = Chờ ít hơn giữa các lần nhấn
ignore-step = mức chờ { $step } trên { $steps }
offer-heading = Quý vị có muốn nhấn dễ hơn không?
offer-accept = Có vài lần nhấn rất ngắn. Máy có thể bỏ qua những lần đó.
offer-ignore = Có vài lần nhấn bị lặp thành hai. Máy có thể bỏ qua lần thứ hai.
offer-scan = Máy có thể chuyển theo nhịp của quý vị.
offer-yes = Có, hãy làm vậy
offer-no = Không, để nguyên

# Opening.
opening-heading = Chào mừng quý vị. Hãy đánh dấu lá phiếu ở đây.
opening-precinct = Phân khu bầu cử của quý vị: { $precinct }
opening-party = Đảng: { $party }
opening-how = Nhấn nút bất kỳ để tiếp tục.
opening-begin = Bắt đầu
opening-not-mine = Đây không phải lá phiếu của tôi

# Languages.
languages-heading = Chọn ngôn ngữ của quý vị
language-name = Tiếng Việt
language-chosen = Đã chọn tiếng Việt.
state-chosen = đã chọn
state-not-chosen = chưa chọn

# Comfort.
comfort-heading = Cỡ chữ, màu và âm thanh
comfort-line = Quý vị có thể đổi những điều này bất cứ lúc nào. Quý vị sẽ không mất các lựa chọn của mình.
comfort-larger = Làm chữ lớn hơn
comfort-smaller = Làm chữ nhỏ hơn
comfort-colours = Đổi màu
comfort-speech-on = Bật giọng nói
comfort-speech-off = Tắt giọng nói
comfort-faster = Nói nhanh hơn
comfort-slower = Nói chậm hơn
comfort-louder = Tiếng lớn hơn
comfort-softer = Tiếng nhỏ hơn
comfort-language = Đổi ngôn ngữ
size-small = chữ nhỏ
size-medium = chữ vừa
size-large = chữ lớn
size-largest = chữ lớn nhất
size-is-most = Màn hình này không hiện được chữ lớn hơn.
palette-dark-on-light = chữ đen, nền trắng
palette-light-on-dark = chữ trắng, nền đen
palette-yellow-on-dark = chữ vàng, nền đen
palette-low-contrast = màu dịu
pace-step = tốc độ { $step } trên { $steps }
loudness-step = âm lượng { $step } trên { $steps }
speech-is-on = giọng nói đang bật
speech-is-off = giọng nói đang tắt

# Practice and how to vote.
practice-heading = Hãy thử trước
practice-line = Quý vị thích trái cây nào? Hãy chọn một. Câu này không có trên lá phiếu của quý vị.
practice-first = Táo
practice-second = Chuối
practice-third = Anh đào
practice-full = Ở đây quý vị chỉ được chọn một. Trước hết, hãy bỏ chọn trái quý vị đã chọn.
practice-chosen = Đã chọn. Để bỏ chọn, hãy chọn trái đó lần nữa.
practice-undone = Đã bỏ chọn.
how-to-heading = Cách bầu
how-to-choose = Chọn một tên. Ô bầu dục của tên đó sẽ thành màu đen.
how-to-undo = Để bỏ chọn, hãy chọn tên đó lần nữa.
how-to-leave = Quý vị có thể để trống bất cứ cuộc tranh cử nào.
how-to-review = Ở phần cuối, quý vị có thể xem lại tất cả lựa chọn của mình và thay đổi.
how-to-paper = Sau đó quý vị in lá phiếu ra giấy và kiểm tra.

# A contest.
contest-place = Cuộc tranh cử { $contest } trên { $contests }
limit-one = Bầu cho 1
limit-many = Bầu cho tối đa { $limit }
limit-any = Bầu cho bao nhiêu tùy ý
limit-ranks = Xếp hạng tối đa { $limit }. Số 1 là lựa chọn quý vị thích nhất.
limit-measure = Chọn 1 câu trả lời
count-chosen = { $chosen ->
    [0] Quý vị chưa chọn mục nào.
   *[other] Quý vị đã chọn { $chosen }, tối đa là { $limit }.
} { $left ->
    [0] Quý vị không thể chọn thêm.
   *[other] Quý vị có thể chọn thêm { $left }.
}
count-ranked = { $chosen ->
    [0] Quý vị chưa xếp hạng mục nào.
   *[other] Quý vị đã xếp hạng { $chosen }, tối đa là { $limit }.
} { $left ->
    [0] Quý vị không thể xếp hạng thêm.
   *[other] Quý vị có thể xếp hạng thêm { $left }.
}
affects-party = Lựa chọn của quý vị ở đây cũng được tính trong { $count } cuộc tranh cử khác, cho các ứng cử viên của đảng đó. Quý vị vẫn có thể chọn ở đó.
affects-activation = Câu trả lời của quý vị có thể quyết định cuộc tranh cử này có được tính hay không: { $contests }. Quý vị vẫn có thể bầu trong cuộc tranh cử đó.
read-full-text = Đọc bản đầy đủ
full-text-heading = Bản đầy đủ: { $title }
write-in-row = Ghi thêm tên
write-in-named = Tên ghi thêm: { $name }
write-in-blank = Phần ghi thêm không có tên
state-rank = lựa chọn số { $rank }
state-no-rank = chưa xếp hạng
said-chosen = Đã chọn: { $name }.
said-undone = Đã bỏ chọn: { $name }.
said-ranked = { $name } bây giờ là lựa chọn số { $rank }.

# The limit.
limit-heading = Quý vị đã chọn { $limit }. Đó là số tối đa quý vị có thể chọn ở đây.
limit-line = Để chọn { $wanted }, trước hết hãy bỏ chọn một trong những mục này.
undo-option = Bỏ chọn { $name }

# Ranks.
rank-pick-heading = { $name } là lựa chọn số mấy?
rank-free = Lựa chọn số { $rank }
rank-taken = Lựa chọn số { $rank } là { $name }.
rank-change-heading = { $name } là lựa chọn số { $rank } của quý vị
rank-undo = Bỏ lựa chọn này
rank-move = Đổi thành lựa chọn số { $rank }
lower-heading = Quý vị muốn chuyển các lựa chọn bên dưới lên không?
lower-line = Quý vị đang bỏ đi một lựa chọn. Các lựa chọn bên dưới có thể chuyển lên, hoặc ở nguyên chỗ cũ.
lower-move-up = Chuyển lên
lower-stay = Để nguyên như cũ

# Writing in.
write-in-heading = Ghi thêm tên
write-in-line = Chỉ ghi tên không có trong danh sách.
write-in-so-far = Đã ghi: { $name }
write-in-nothing = Chưa ghi gì.
keys-row = { $first } đến { $last }
key-name = { $letter }
key-written = { $letter }
key-refused = Không ghi thêm được { $letter }. Tên đã hết chỗ.
write-in-delete = Xóa chữ cái cuối
write-in-deleted = Đã xóa: { $letter }
write-in-no-letter = Không có chữ cái nào để xóa.
write-in-spell = Nghe từng chữ cái
write-in-spelled = { $letters }
write-in-finish = Đã ghi xong tên
blank-heading = Quý vị chưa ghi tên nào
blank-line = Phần ghi thêm không có tên có thể không được tính.
blank-write = Ghi tên
blank-keep = Vẫn đánh dấu, không ghi tên
blank-undo = Không dùng phần ghi thêm
write-in-change-heading = Quý vị đã ghi thêm một tên
write-in-edit = Sửa tên
write-in-undo = Bỏ chọn tên ghi thêm

# Review and print.
review-heading = Xem lại các lựa chọn của quý vị
review-complete = Quý vị đã làm xong { $complete } trên { $contests } cuộc tranh cử.
review-left = Có { $left } cuộc tranh cử còn chọn thêm được và được xếp lên đầu. Nếu quý vị muốn để như vậy thì không sao.
review-how = Để đổi một lựa chọn, hãy chọn cuộc tranh cử đó.
review-title = { $contest }. { $title }
review-nothing = Chưa chọn gì
review-chosen = { $names }
review-more-left = Quý vị có thể chọn thêm { $left }.
review-full = Xong.
review-ranked = lựa chọn số { $rank }: { $name }
review-print = In phiếu
ask-print-heading = Quý vị muốn in lá phiếu bây giờ không?
ask-print-line = Sau khi in, quý vị không thể đổi phiếu giấy này. Quý vị sẽ kiểm tra phiếu trước khi bỏ vào thùng phiếu.
ask-print-left = Vẫn có { $left } cuộc tranh cử còn chọn thêm được.
ask-print-yes = Có, in lá phiếu của tôi
ask-print-no = Không, trở lại lựa chọn của tôi
printing-heading = Đang in lá phiếu của quý vị
printing-line = Xin chờ một chút.
print-fault-heading = Lá phiếu của quý vị chưa in được
fault-paper = Máy in hết giấy.
fault-jam = Giấy bị kẹt trong máy in.
fault-offline = Máy in không trả lời.
fault-not-made = Không chuẩn bị được lá phiếu để in.
fault-kept = Đây không phải lỗi của quý vị. Các lựa chọn của quý vị vẫn được giữ. Nhân viên có thể giúp.
print-again = Thử in lại
call-worker = Gọi nhân viên

# The paper.
reading-heading = Máy đang đọc phiếu giấy của quý vị
reading-line = Xin chờ một chút.
read-fault-heading = Không đọc được phiếu giấy của quý vị
fault-no-sheet = Không tìm thấy tờ phiếu nào.
fault-unreadable = Các dấu trên tờ phiếu không rõ.
fault-other-ballot = Đây là tờ phiếu của một lá phiếu khác.
fault-print-differs = Trên tờ phiếu có chỗ không đúng. Xin đừng dùng tờ phiếu này.
read-again = Đọc lại phiếu giấy
new-sheet = Nhận lá phiếu mới
check-heading = Phiếu giấy của quý vị có đúng không?
check-line = Hãy xem từng cuộc tranh cử trên phiếu giấy, hoặc nghe máy đọc phiếu. Phiếu chưa được bỏ vào thùng phiếu.
check-sheets = Lá phiếu của quý vị gồm { $sheets } tờ.
check-yes = Có, phiếu đúng
check-no = Không, có chỗ sai
check-read = Đọc cho tôi nghe
read-back-heading = Đây là nội dung trên phiếu giấy của quý vị
read-back-line = Những lời này được đọc từ phiếu giấy.
paper-contest = { $title }
paper-nothing = Không có gì được đánh dấu
paper-marked = Đã đánh dấu: { $names }
paper-ranked = { $names }
paper-rank = lựa chọn số { $rank }, { $name }
paper-doubt = Có một dấu ở đây không rõ. Xin quý vị xem lại.
paper-write-in-read = tên ghi thêm { $name }
paper-write-in-unread = một tên viết tay hoặc đánh máy mà máy không đọc được
paper-write-in-none = phần ghi thêm không có tên
differs-heading = Phiếu giấy không giống những gì quý vị đã chọn
differs-line = Xin đừng dùng phiếu giấy này. Đây không phải lỗi của quý vị. Hãy nhận lá phiếu mới hoặc gọi nhân viên.
differs-where = Hãy xem: { $contests }
spoil-heading = Nhận lá phiếu mới
spoil-device-heading = Quý vị sẽ nhận lá phiếu mới
spoil-line = Xin đừng bỏ phiếu giấy đang có vào thùng phiếu. Hãy đưa phiếu đó cho nhân viên. Quý vị muốn làm gì?
spoil-left = Quý vị có thể nhận thêm { $left } lá phiếu mới ở đây.
spoil-none = Quý vị đã nhận hết số lá phiếu mới mà máy này được phép in cho quý vị. Nhân viên có thể giúp quý vị.
spoil-keep = Giữ và sửa các lựa chọn của tôi
spoil-fresh = Làm lại từ đầu, bỏ hết lựa chọn
spoil-cancel = Trở lại, phiếu giấy đúng
done-heading = Lá phiếu của quý vị đã in xong. Phiếu chưa được bỏ vào thùng phiếu.
done-line = Hãy mang phiếu giấy đến thùng phiếu, hoặc đến máy quét lá phiếu. Phiếu chỉ được tính khi quý vị bỏ phiếu vào đó.
done-sheets = { $sheets ->
    [1] Quý vị có { $sheets } tờ phiếu để bỏ vào.
   *[other] Quý vị có { $sheets } tờ phiếu để bỏ vào. Hãy bỏ vào đủ tất cả các tờ.
}
done-thanks = Máy này không giữ lại phiếu bầu nào. Cảm ơn quý vị.
done-leave = Tôi đã lấy phiếu giấy. Tôi xong rồi.

# Help and the worker.
help-heading = Chúng tôi có thể giúp gì cho quý vị?
help-explain = Giải thích màn hình này
help-worker = Gọi nhân viên
explain-heading = Về màn hình này
worker-heading = Màn hình đã được che
worker-line = Đã gọi nhân viên. Các lựa chọn của quý vị vẫn được giữ. Không ai có thể thấy các lựa chọn đó.
worker-asked = Cử tri nhờ giúp đỡ.
worker-not-mine = Cử tri nói: đây không phải lá phiếu của tôi.
worker-replacements = Cử tri muốn nhận thêm một lá phiếu mới.
worker-device = Một thiết bị cần nhân viên xem.
worker-no-press = Đã một lúc không có ai nhấn nút.
worker-came = Nhân viên đã đến. Các lựa chọn của quý vị được che và vẫn được giữ.
worker-return = Trở lại chỗ cử tri đang làm
worker-here = Nhân viên đã ở đây
worker-end = Nhân viên: kết thúc lượt này
confirm-end-heading = Kết thúc lượt này không?
confirm-end-line = Tất cả lựa chọn sẽ bị xóa. Nếu đã in tờ phiếu thì phải lấy tờ phiếu ra.
confirm-end-yes = Có, kết thúc lượt này
confirm-end-no = Không, trở lại
ended-heading = Lượt này đã kết thúc
ended-line = Máy không giữ lại gì.

# What each screen is for.
explain-opening = Màn hình này cho biết quý vị sẽ đánh dấu lá phiếu nào. Nếu đó không phải lá phiếu của quý vị, hãy báo ở đây.
explain-languages = Chọn ngôn ngữ mà quý vị muốn đọc và nghe.
explain-comfort = Làm chữ lớn hơn, đổi màu, hoặc đổi giọng nói.
explain-presses = Ở đây quý vị có thể đổi cách máy nhận nút bấm và lần nhấn của quý vị.
explain-hide = Hãy che màn hình nếu quý vị nghe và không muốn ai thấy các lựa chọn của mình.
explain-practice = Ở đây quý vị có thể thử cách chọn. Phần này không được tính.
explain-how-to = Những dòng này chỉ cho quý vị cách bầu.
explain-contest = Đây là một cuộc tranh cử trên lá phiếu của quý vị. Hãy chọn những tên quý vị muốn. Sau đó dùng nút Tiếp để đi tiếp.
explain-limit = Quý vị đã chọn đủ số tối đa. Hãy bỏ chọn một mục nếu quý vị muốn chọn mục khác.
explain-rank = Ở đây quý vị xếp hạng các ứng cử viên. Số 1 là lựa chọn quý vị thích nhất.
explain-write-in = Ở đây quý vị ghi tên bằng các phím trên màn hình.
explain-full-text = Đây là bản đầy đủ của câu hỏi.
explain-review = Đây là tất cả lựa chọn của quý vị. Hãy chọn một cuộc tranh cử để thay đổi. Khi quý vị sẵn sàng, hãy chọn In phiếu.
explain-print = Máy in đánh dấu lá phiếu giấy cho quý vị.
explain-fault = Một thiết bị bị trục trặc. Đây không phải lỗi của quý vị. Nhân viên có thể giúp.
explain-paper = Hãy kiểm tra phiếu giấy ở đây. Quý vị có thể xem phiếu, hoặc nghe những gì có trên phiếu.
explain-spoil = Nếu phiếu giấy của quý vị bị sai, quý vị có thể nhận lá phiếu mới.
explain-done = Phiếu giấy của quý vị đã sẵn sàng. Hãy lấy phiếu và bỏ vào thùng phiếu hoặc máy quét.
explain-switches = Dùng hai nút bấm: nút thứ nhất đi đến mục kế tiếp. Nút thứ hai chọn mục đó. Dùng một nút bấm: máy tự chuyển sang mục kế tiếp. Hãy nhấn khi quý vị nghe mục mình muốn.
explain-keys = Dùng phím: các phím mũi tên đi lên và đi xuống. Phím Enter để chọn. Phím P dừng giọng nói rồi cho nói tiếp. Phím S đánh vần tên.
explain-touch = Dùng tay: chạm vào mục quý vị muốn.

# Joining, letters and names.
list-separator = { ", " }
ticket-separator = { " và " }
letter-space = khoảng trống
letter-hyphen = gạch nối
letter-apostrophe = dấu nháy đơn
letter-period = dấu chấm
letter-a-acute = Á
    .heard = A có dấu sắc
letter-e-acute = É
    .heard = E có dấu sắc
letter-i-acute = Í
    .heard = I có dấu sắc
letter-o-acute = Ó
    .heard = O có dấu sắc
letter-u-acute = Ú
    .heard = U có dấu sắc
letter-n-tilde = Ñ
    .heard = N có dấu ngã
letter-u-diaeresis = Ü
    .heard = U có hai chấm
letter-a-diaeresis = Ä
    .heard = A có hai chấm
letter-e-diaeresis = Ë
    .heard = E có hai chấm
letter-i-diaeresis = Ï
    .heard = I có hai chấm
letter-o-diaeresis = Ö
    .heard = O có hai chấm
letter-c-cedilla = Ç
    .heard = C có móc ở dưới
