# What stands on the paper ballot beside the election's own texts, Spanish.
# Unreviewed: a certified translator must check it before use.
paper-style = Tipo de boleta { $style }
paper-how-heading = Cómo marcar esta boleta
paper-how-fill = Rellene todo el óvalo junto a su elección. Use un bolígrafo negro o azul.
paper-how-write = Para votar por una persona que no está en la lista, rellene el óvalo y escriba el nombre sobre la línea.
paper-how-mistake = Si se equivoca, pida una boleta nueva.
paper-limit-one = Vote por 1
paper-limit-many = Vote por hasta { $limit }
paper-limit-any = Vote por tantos como quiera
paper-limit-ranks = Ordene hasta { $limit }. La columna 1 es para quien más le gusta. Rellene como máximo un óvalo en cada fila y en cada columna.
paper-limit-measure = Vote por 1 respuesta
paper-affects-party = { $count ->
    [one] Un voto aquí cuenta también en { $count } contienda más, para la gente de ese partido.
   *[other] Un voto aquí cuenta también en { $count } contiendas más, para la gente de ese partido.
}
paper-affects-activation = Su respuesta puede decidir si esta contienda cuenta: { $contests }.
paper-rank-heading = { $rank }
paper-write-in = Otro nombre
paper-continued = { $title } (continúa)
paper-turn-over = Dé vuelta a la hoja.
paper-next-sheet = Siga en la hoja { $sheet }.
paper-last = Fin de la boleta.
paper-sheet = Hoja { $sheet } de { $sheets }
paper-date = { $day } de { $month ->
    [1] enero
    [2] febrero
    [3] marzo
    [4] abril
    [5] mayo
    [6] junio
    [7] julio
    [8] agosto
    [9] septiembre
    [10] octubre
    [11] noviembre
   *[other] diciembre
} de { $year }
paper-state-test = Boleta de prueba
paper-state-demo = Demostración. No es una boleta.
