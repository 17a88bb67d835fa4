# What stands on the paper ballot beside the election's own texts, Vietnamese.
# Unreviewed: a certified translator must check it before use.
paper-style = Loại lá phiếu { $style }
paper-how-heading = Cách đánh dấu lá phiếu này
paper-how-fill = Tô kín cả ô bầu dục bên cạnh lựa chọn của quý vị. Dùng bút mực đen hoặc xanh dương.
paper-how-write = Để bầu cho một người không có trong danh sách, hãy tô kín ô bầu dục và ghi tên người đó ở phía trên đường kẻ.
paper-how-mistake = Nếu quý vị làm sai, hãy xin lá phiếu mới.
paper-limit-one = Bầu cho 1
paper-limit-many = Bầu cho tối đa { $limit }
paper-limit-any = Bầu cho bao nhiêu tùy ý
paper-limit-ranks = Xếp hạng tối đa { $limit }. Cột 1 dành cho lựa chọn quý vị thích nhất. Chỉ tô tối đa một ô bầu dục trong mỗi hàng và trong mỗi cột.
paper-limit-measure = Bầu cho 1 câu trả lời
paper-affects-party = Phiếu bầu ở đây cũng được tính trong { $count } cuộc tranh cử khác, cho các ứng cử viên của đảng đó.
paper-affects-activation = Câu trả lời của quý vị có thể quyết định cuộc tranh cử này có được tính hay không: { $contests }.
paper-rank-heading = { $rank }
paper-write-in = Tên ghi thêm
paper-continued = { $title } (tiếp theo)
paper-turn-over = Xin lật sang mặt sau.
paper-next-sheet = Xin tiếp tục ở tờ { $sheet }.
paper-last = Hết lá phiếu.
paper-sheet = Tờ { $sheet } trên { $sheets }
paper-date = Ngày { $day } tháng { $month } năm { $year }
paper-state-test = Lá phiếu thử nghiệm
paper-state-demo = Trình diễn. Không phải lá phiếu.
