# What stands on the paper ballot beside the election's own texts, Korean.
# Unreviewed: a certified translator must check it before use.
paper-style = 투표용지 종류 { $style }
paper-how-heading = 투표용지에 표시하는 방법
paper-how-fill = 원하는 선택 옆의 타원을 빈틈없이 칠하세요. 검은색 또는 파란색 펜을 사용하세요.
paper-how-write = 목록에 없는 사람에게 투표하려면 타원을 칠하고 줄 위에 이름을 쓰세요.
paper-how-mistake = 실수했으면 새 투표용지를 달라고 하세요.
paper-limit-one = 하나만 선택하세요
paper-limit-many = { $limit }개까지 선택하세요
paper-limit-any = 원하는 만큼 선택하세요
paper-limit-ranks = { $limit }순위까지 정할 수 있습니다. 1번 세로줄에는 가장 원하는 선택을 표시하세요. 가로줄마다, 그리고 세로줄마다 타원을 하나까지만 칠하세요.
paper-limit-measure = 답을 하나만 선택하세요
paper-affects-party = 여기에 투표하면 다른 투표 항목 { $count }개에서도 그 정당 후보의 표로 인정됩니다.
paper-affects-activation = 여기에서 하는 답에 따라 다음 투표 항목이 인정될지 정해질 수 있습니다: { $contests }.
paper-rank-heading = { $rank }
paper-write-in = 직접 쓰기
paper-continued = { $title } (계속)
paper-turn-over = 뒷면으로 넘기세요.
paper-next-sheet = { $sheet }번째 용지로 계속하세요.
paper-last = 투표용지 끝.
paper-sheet = 용지 { $sheets }장 중 { $sheet }번째
paper-date = { $year }년 { $month }월 { $day }일
paper-state-test = 시험용 투표용지
paper-state-demo = 시연용. 투표용지가 아닙니다.
