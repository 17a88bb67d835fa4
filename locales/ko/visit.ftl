# What a voter reads and hears, Korean. A ".heard" attribute is said where it differs from what is read.
# Unreviewed: a certified translator must check it before use.
plain = { $text }

# The bar at the bottom, and long lists.
bar-back = 이전
bar-next = 다음
bar-hear-again = 다시 듣기
bar-comfort = 크기와 소리
bar-help = 도움
bar-done = 완료
bar-skip = 건너뛰기
bar-to-review = 확인 화면으로
bar-keep = 선택 그대로 두기
more-above = 위에 { $count }개 더
more-below = 아래에 { $count }개 더
state-demo = 시연용입니다. 실제 투표용지가 아닙니다.
state-test = 시험용입니다. 실제 투표용지가 아닙니다.
notice-no-speech = 소리가 멈췄습니다. 직원을 불렀습니다. 화면을 보며 계속할 수 있습니다.
option-place = 선택지 { $options }개 중 { $option }번째.
block-rows = { $first }번부터 { $last }번까지: { $from }부터 { $to }까지.
block-back-one = 마지막 것으로 돌아가기
block-start = 이 묶음의 처음으로
group = 그 밖에: { $items }.

# The screen that a voter has hidden.
cover-line = 헤드폰으로 들으세요. 터치가 꺼져 있습니다.
said-covered = 화면이 가려져 있습니다. 터치가 꺼져 있습니다.
said-hidden = 네. 화면이 가려져 있습니다.
said-shown = 아니요. 화면이 보입니다.
screen-is-hidden = 화면 가려짐
screen-is-shown = 화면 보임
hide-needs-voice = 먼저 음성을 켜세요. 그런 다음 화면을 가릴 수 있습니다.
ask-hide-heading = 화면을 가릴까요?
ask-hide-line = 화면을 가리면 터치가 꺼집니다. 키나 스위치가 필요합니다.
ask-hide-yes = 네, 가리기
ask-hide-no = 아니요, 그대로 두기

# Listening to a screen.
listen-heading = 이 화면 듣기
listen-on = 다음 문장
listen-back = 이전 문장
listen-pause = 잠시 멈춤
listen-go-on = 계속
listen-start = 처음부터
listen-spell = 이름 한 글자씩 듣기
listen-hidden = 내 화면이 가려져 있나요?
nothing-to-spell = 여기에는 한 글자씩 들을 이름이 없습니다.

# Time.
more-time-heading = 시간이 더 필요하세요?
more-time-line = 계속하려면 아무 버튼이나 누르세요. 선택한 내용은 그대로 있습니다.
more-time-yes = 네, 시간이 더 필요합니다

# Switches and presses.
comfort-hide = 화면 가리기
comfort-show = 화면 보이기
comfort-presses = 스위치와 누르기
presses-heading = 스위치와 누르기
presses-line = 누르기가 잘 안 되면 이것을 바꾸세요.
one-switch = 스위치 하나 사용
two-switches = 스위치 두 개 사용
has-one-switch = 스위치 하나: 기기가 저절로 다음으로 넘어감
has-two-switches = 스위치 두 개
scan-faster = 더 빠르게 넘어가기
scan-slower = 더 느리게 넘어가기
scan-step = 기다림 { $steps }단계 중 { $step }단계
accept-longer = 더 길게 눌러야 인정
accept-shorter = 더 짧게 눌러도 인정
accept-step = 누르는 길이 { $steps }단계 중 { $step }단계
ignore-longer = 누르기 사이 더 오래 기다리기
ignore-shorter = 누르기 사이 더 짧게 기다리기
ignore-step = 기다림 { $steps }단계 중 { $step }단계
offer-heading = 더 쉽게 누를 수 있게 할까요?
offer-accept = 아주 짧게 누른 것이 있었습니다. 기기가 이것을 건너뛸 수 있습니다.
offer-ignore = 두 번 눌린 것이 있었습니다. 기기가 두 번째 것을 건너뛸 수 있습니다.
offer-scan = 기기가 누르시는 속도에 맞춰 넘어갈 수 있습니다.
offer-yes = 네, 그렇게 하기
offer-no = 아니요, 그대로 두기

# Opening.
opening-heading = 환영합니다. 여기에서 투표용지에 표시하세요.
opening-precinct = 투표구: { $precinct }
opening-party = 정당: { $party }
opening-how = 계속하려면 아무 버튼이나 누르세요.
opening-begin = 시작
opening-not-mine = 내 투표용지가 아닙니다

# Languages.
languages-heading = 언어를 선택하세요
language-name = 한국어
language-chosen = 한국어가 선택되었습니다.
state-chosen = 선택됨
state-not-chosen = 선택 안 됨

# Comfort.
comfort-heading = 크기, 색, 소리
comfort-line = 언제든지 바꿀 수 있습니다. 선택한 내용은 없어지지 않습니다.
comfort-larger = 글자 크게
comfort-smaller = 글자 작게
comfort-colours = 색 바꾸기
comfort-speech-on = 음성 켜기
comfort-speech-off = 음성 끄기
comfort-faster = 말 빠르게
comfort-slower = 말 느리게
comfort-louder = 소리 크게
comfort-softer = 소리 작게
comfort-language = 언어 바꾸기
size-small = 작은 글자
size-medium = 중간 글자
size-large = 큰 글자
size-largest = 가장 큰 글자
size-is-most = 이 화면에는 더 큰 글자를 표시할 수 없습니다.
palette-dark-on-light = 흰 바탕에 검은 글자
palette-light-on-dark = 검은 바탕에 흰 글자
palette-yellow-on-dark = 검은 바탕에 노란 글자
palette-low-contrast = 부드러운 색
pace-step = 말 빠르기 { $steps }단계 중 { $step }단계
loudness-step = 소리 크기 { $steps }단계 중 { $step }단계
speech-is-on = 음성 켜짐
speech-is-off = 음성 꺼짐

# Practice and how to vote.
practice-heading = 먼저 연습해 보세요
practice-line = 어떤 과일을 좋아하세요? 하나를 선택하세요. 이것은 투표용지에 들어가지 않습니다.
practice-first = 사과
practice-second = 바나나
practice-third = 체리
practice-full = 여기에서는 하나만 선택할 수 있습니다. 먼저 선택한 것을 취소하세요.
practice-chosen = 선택되었습니다. 취소하려면 다시 선택하세요.
practice-undone = 선택이 취소되었습니다.
how-to-heading = 투표하는 방법
how-to-choose = 이름을 선택하세요. 그 이름의 타원이 검게 바뀝니다.
how-to-undo = 취소하려면 다시 선택하세요.
how-to-leave = 어떤 투표 항목이든 비워 두어도 됩니다.
how-to-review = 마지막에 선택한 내용을 모두 보고 바꿀 수 있습니다.
how-to-paper = 그런 다음 투표용지를 종이에 인쇄해서 확인합니다.

# A contest.
contest-place = 투표 항목 { $contests }개 중 { $contest }번째
limit-one = 하나만 선택하세요
limit-many = { $limit }개까지 선택하세요
limit-any = 원하는 만큼 선택하세요
limit-ranks = { $limit }순위까지 정할 수 있습니다. 1순위가 가장 원하는 선택입니다.
limit-measure = 답을 하나만 선택하세요
count-chosen = { $chosen ->
    [0] 아직 선택한 것이 없습니다.
   *[other] { $limit }개 중 { $chosen }개를 선택했습니다.
} { $left ->
    [0] 더 선택할 수 없습니다.
   *[other] { $left }개 더 선택할 수 있습니다.
}
count-ranked = { $chosen ->
    [0] 아직 순위를 정한 것이 없습니다.
   *[other] { $limit }개 중 { $chosen }개의 순위를 정했습니다.
} { $left ->
    [0] 순위를 더 정할 수 없습니다.
   *[other] { $left }개 더 순위를 정할 수 있습니다.
}
affects-party = 여기에서 선택하면 다른 투표 항목 { $count }개에서도 그 정당 후보의 표로 인정됩니다. 그래도 그 항목에서 따로 선택할 수 있습니다.
affects-activation = 여기에서 하는 답에 따라 다음 투표 항목이 인정될지 정해질 수 있습니다: { $contests }. 그래도 그 항목에 투표할 수 있습니다.
read-full-text = 전체 내용 읽기
full-text-heading = 전체 내용: { $title }
write-in-row = 이름 직접 쓰기
write-in-named = 직접 쓴 이름: { $name }
write-in-blank = 이름 없는 직접 쓰기
state-rank = { $rank }순위
state-no-rank = 순위 없음
said-chosen = 선택됨: { $name }.
said-undone = 선택 취소됨: { $name }.
said-ranked = { $name }: 이제 { $rank }순위입니다.

# The limit.
limit-heading = 이미 { $limit }개를 선택했습니다. 여기에서는 더 선택할 수 없습니다.
limit-line = 새 선택: { $wanted }. 이 선택을 하려면 먼저 다음 중 하나를 취소하세요.
undo-option = 취소: { $name }

# Ranks.
rank-pick-heading = { $name }: 몇 순위로 할까요?
rank-free = { $rank }순위
rank-taken = 현재 { $rank }순위: { $name }.
rank-change-heading = { $name }: 현재 { $rank }순위
rank-undo = 이 선택 취소
rank-move = { $rank }순위로 바꾸기
lower-heading = 아래 순위를 위로 올릴까요?
lower-line = 선택 하나를 빼고 있습니다. 그 아래 순위는 위로 올리거나 그대로 둘 수 있습니다.
lower-move-up = 위로 올리기
lower-stay = 그대로 두기

# Writing in.
write-in-heading = 이름을 직접 쓰세요
write-in-line = 목록에 없는 이름만 쓰세요.
write-in-so-far = 지금까지 쓴 이름: { $name }
write-in-nothing = 아직 쓴 글자가 없습니다.
keys-row = { $first }부터 { $last }까지
key-name = { $letter }
key-written = { $letter }
key-refused = { $letter }: 들어가지 않습니다. 이름 칸이 다 찼습니다.
write-in-delete = 마지막 글자 지우기
write-in-deleted = 지운 글자: { $letter }
write-in-no-letter = 지울 글자가 없습니다.
write-in-spell = 한 글자씩 듣기
write-in-spelled = { $letters }
write-in-finish = 이름 쓰기 완료
blank-heading = 이름을 쓰지 않았습니다
blank-line = 이름 없는 직접 쓰기는 표로 인정되지 않을 수 있습니다.
blank-write = 이름 쓰기
blank-keep = 이름 없이 표시해 두기
blank-undo = 직접 쓰기 안 하기
write-in-change-heading = 이름을 직접 썼습니다
write-in-edit = 이름 바꾸기
write-in-undo = 직접 쓴 이름 취소

# Review and print.
review-heading = 선택한 내용을 확인하세요
review-complete = 투표 항목 { $contests }개 중 { $complete }개를 마쳤습니다.
review-left = 더 선택할 수 있는 투표 항목이 { $left }개 있습니다. 이 항목이 먼저 나옵니다. 원하면 그대로 두어도 됩니다.
review-how = 선택을 바꾸려면 그 투표 항목을 고르세요.
review-title = { $contest }. { $title }
review-nothing = 선택한 것 없음
review-chosen = { $names }
review-more-left = { $left }개 더 선택할 수 있습니다.
review-full = 완료.
review-ranked = { $rank }순위: { $name }
review-print = 인쇄
ask-print-heading = 지금 투표용지를 인쇄할까요?
ask-print-line = 인쇄한 뒤에는 이 종이를 바꿀 수 없습니다. 투표함에 넣기 전에 종이를 확인하게 됩니다.
ask-print-left = 아직 더 선택할 수 있는 투표 항목이 { $left }개 있습니다.
ask-print-yes = 네, 투표용지 인쇄하기
ask-print-no = 아니요, 선택으로 돌아가기
printing-heading = 투표용지를 인쇄하고 있습니다
printing-line = 잠시 기다려 주세요.
print-fault-heading = 투표용지가 인쇄되지 않았습니다
fault-paper = 프린터에 종이가 없습니다.
fault-jam = 프린터에 종이가 걸렸습니다.
fault-offline = 프린터가 응답하지 않습니다.
fault-not-made = 인쇄할 투표용지를 준비하지 못했습니다.
fault-kept = 잘못하신 것이 아닙니다. 선택한 내용은 그대로 있습니다. 직원이 도와드릴 수 있습니다.
print-again = 다시 인쇄해 보기
call-worker = 직원 부르기

# The paper.
reading-heading = 기기가 종이를 읽고 있습니다
reading-line = 잠시 기다려 주세요.
read-fault-heading = 종이를 읽지 못했습니다
fault-no-sheet = 용지를 찾지 못했습니다.
fault-unreadable = 용지의 표시가 뚜렷하지 않았습니다.
fault-other-ballot = 이 용지는 다른 투표용지의 한 장입니다.
fault-print-differs = 용지에 잘못된 부분이 있습니다. 이 용지를 사용하지 마세요.
read-again = 종이 다시 읽기
new-sheet = 새 투표용지 받기
check-heading = 종이 투표용지가 맞나요?
check-line = 종이에 있는 모든 투표 항목을 보거나, 읽어 주는 소리를 들으세요. 아직 투표함에 넣지 않은 상태입니다.
check-sheets = 투표용지는 모두 { $sheets }장입니다.
check-yes = 네, 맞습니다
check-no = 아니요, 잘못된 것이 있습니다
check-read = 읽어 주세요
read-back-heading = 종이에 있는 내용입니다
read-back-line = 이 말은 종이에서 읽은 것입니다.
paper-contest = { $title }
paper-nothing = 표시한 것 없음
paper-marked = 표시됨: { $names }
paper-ranked = { $names }
paper-rank = { $rank }순위, { $name }
paper-doubt = 여기에 뚜렷하지 않은 표시가 하나 있습니다. 확인해 주세요.
paper-write-in-read = 직접 쓴 이름 { $name }
paper-write-in-unread = 손이나 기계로 쓴 이름 (읽을 수 없음)
paper-write-in-none = 이름 없는 직접 쓰기
differs-heading = 종이가 선택한 내용과 다릅니다
differs-line = 이 종이를 사용하지 마세요. 잘못하신 것이 아닙니다. 새 투표용지를 받거나 직원을 부르세요.
differs-where = 확인할 곳: { $contests }
spoil-heading = 새 투표용지 받기
spoil-device-heading = 새 투표용지를 받게 됩니다
spoil-line = 갖고 있는 종이를 투표함이나 스캐너에 넣지 마세요. 직원에게 주세요. 어떻게 하시겠어요?
spoil-left = 여기에서 새 투표용지를 { $left }번 더 받을 수 있습니다.
spoil-none = 이 기기에서 받을 수 있는 새 투표용지를 모두 받았습니다. 직원이 도와드릴 수 있습니다.
spoil-keep = 선택을 그대로 두고 고치기
spoil-fresh = 선택을 비우고 다시 시작하기
spoil-cancel = 돌아가기, 종이가 맞습니다
done-heading = 투표용지가 인쇄되었습니다. 아직 투표함에 넣지 않은 상태입니다.
done-line = 종이를 투표함이나 투표용지 스캐너로 가져가세요. 넣어야만 표로 인정됩니다.
done-sheets = { $sheets ->
    [1] 넣을 용지는 { $sheets }장입니다.
   *[other] 넣을 용지는 { $sheets }장입니다. 한 장도 빠짐없이 넣으세요.
}
done-thanks = 이 기기에는 투표 내용이 남지 않습니다. 감사합니다.
done-leave = 종이를 받았습니다. 다 끝났습니다.

# Help and the worker.
help-heading = 무엇을 도와드릴까요?
help-explain = 이 화면 설명
help-worker = 직원 부르기
explain-heading = 이 화면에 대해
worker-heading = 화면이 가려져 있습니다
worker-line = 직원을 불렀습니다. 선택한 내용은 그대로 있습니다. 아무도 볼 수 없습니다.
worker-asked = 유권자가 도움을 요청했습니다.
worker-not-mine = 유권자의 말: 내 투표용지가 아닙니다.
worker-replacements = 유권자가 새 투표용지를 한 번 더 받고 싶어 합니다.
worker-device = 직원이 살펴봐야 할 장치가 있습니다.
worker-no-press = 한동안 아무도 버튼을 누르지 않았습니다.
worker-came = 직원이 왔습니다. 선택한 내용은 가려져 있고 그대로 있습니다.
worker-return = 유권자가 보던 화면으로 돌아가기
worker-here = 직원이 여기 있습니다
worker-end = 직원: 이번 이용 끝내기
confirm-end-heading = 이번 이용을 끝낼까요?
confirm-end-line = 선택한 내용이 모두 지워집니다. 인쇄된 용지가 있으면 꺼내야 합니다.
confirm-end-yes = 네, 이용 끝내기
confirm-end-no = 아니요, 돌아가기
ended-heading = 이번 이용이 끝났습니다
ended-line = 아무것도 저장되지 않았습니다.

# What each screen is for.
explain-opening = 이 화면은 어떤 투표용지에 표시할지 보여 줍니다. 내 투표용지가 아니면 여기에서 알려 주세요.
explain-languages = 읽고 듣고 싶은 언어를 선택하세요.
explain-comfort = 글자를 크게 하거나, 색을 바꾸거나, 음성을 바꾸세요.
explain-presses = 여기에서 스위치와 누르기의 작동 방법을 바꿀 수 있습니다.
explain-hide = 소리로 듣고 있고 선택한 내용을 아무에게도 보이고 싶지 않으면 화면을 가리세요.
explain-practice = 여기에서 선택하는 방법을 연습할 수 있습니다. 표로 인정되지 않습니다.
explain-how-to = 이 글은 투표하는 방법을 알려 줍니다.
explain-contest = 투표용지에 있는 투표 항목 하나입니다. 원하는 이름을 선택하세요. 그런 다음 ‘다음’을 선택해서 계속하세요.
explain-limit = 선택할 수 있는 만큼 모두 선택했습니다. 다른 것을 선택하려면 하나를 취소하세요.
explain-rank = 여기에서 사람들의 순위를 정합니다. 1순위가 가장 원하는 선택입니다.
explain-write-in = 여기에서 화면의 글자판으로 이름을 씁니다.
explain-full-text = 질문의 전체 내용입니다.
explain-review = 선택한 내용이 모두 여기에 있습니다. 바꾸려면 투표 항목을 고르세요. 준비가 되면 ‘인쇄’를 선택하세요.
explain-print = 프린터가 종이 투표용지에 대신 표시해 줍니다.
explain-fault = 장치에 문제가 생겼습니다. 잘못하신 것이 아닙니다. 직원이 도와드릴 수 있습니다.
explain-paper = 여기에서 종이를 확인하세요. 종이를 보거나, 종이에 있는 내용을 들을 수 있습니다.
explain-spoil = 종이가 잘못되었으면 새 투표용지를 받을 수 있습니다.
explain-done = 종이가 준비되었습니다. 가져가서 투표함이나 스캐너에 넣으세요.
explain-switches = 스위치 두 개를 사용할 때: 첫째 스위치는 다음 것으로 갑니다. 둘째 스위치는 그것을 선택합니다. 스위치 하나를 사용할 때: 기기가 저절로 다음으로 넘어갑니다. 원하는 것이 들리면 누르세요.
explain-keys = 키를 사용할 때: 화살표 키로 위아래로 움직입니다. 엔터 키로 선택합니다. P 키로 음성을 멈추고 다시 계속합니다. S 키로 이름을 한 글자씩 듣습니다.
explain-touch = 화면을 터치할 때: 원하는 것을 터치하세요.

# Joining, letters and names.
list-separator = { ", " }
ticket-separator = { " 및 " }
letter-space = 빈칸
letter-hyphen = 붙임표
letter-apostrophe = 아포스트로피
letter-period = 마침표
letter-a-acute = Á
    .heard = 악센트가 있는 A
letter-e-acute = É
    .heard = 악센트가 있는 E
letter-i-acute = Í
    .heard = 악센트가 있는 I
letter-o-acute = Ó
    .heard = 악센트가 있는 O
letter-u-acute = Ú
    .heard = 악센트가 있는 U
letter-n-tilde = Ñ
    .heard = 물결표가 있는 N
letter-u-diaeresis = Ü
    .heard = 점 두 개가 있는 U
letter-a-diaeresis = Ä
    .heard = 점 두 개가 있는 A
letter-e-diaeresis = Ë
    .heard = 점 두 개가 있는 E
letter-i-diaeresis = Ï
    .heard = 점 두 개가 있는 I
letter-o-diaeresis = Ö
    .heard = 점 두 개가 있는 O
letter-c-cedilla = Ç
    .heard = 아래에 꼬리가 있는 C
