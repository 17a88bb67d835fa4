# What stands on the paper ballot beside the election's own texts, Spanish.
# Unreviewed: a certified translator must check it before use.
paper-title = Boleta oficial
paper-precinct = Precinto: { $precinct }
paper-party = Partido: { $party }
paper-style = Tipo de boleta { $style }
paper-how-heading = Cómo marcar esta boleta
paper-how-fill = Rellene el óvalo a la izquierda de su elección. Use un bolígrafo negro o azul.
paper-how-write = Para votar por una persona que no está en la lista, rellene el óvalo y escriba el nombre en la línea.
paper-how-mistake = Si se equivoca, pida una boleta nueva.
paper-limit-one = Vote por 1
paper-limit-many = Vote por hasta { $limit }
paper-limit-any = Vote por tantos como quiera
paper-limit-ranks = Ordene hasta { $limit }. Rellene un óvalo en cada fila y uno en cada columna.
paper-limit-measure = Vote por 1 respuesta
paper-rank = { $rank }
paper-write-in = Otro nombre
paper-continued = (continúa)
paper-turn-over = Dé vuelta a la hoja
paper-next-sheet = Continúa en la hoja { $sheet }
paper-last = Fin de la boleta
paper-sheet = Hoja { $sheet } de { $sheets }
paper-side-front = Frente
paper-side-back = Reverso
paper-state-test = BOLETA DE PRUEBA
paper-state-demo = DEMOSTRACIÓN – NO ES BOLETA
