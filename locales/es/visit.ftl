# What a voter reads and hears, Spanish. A ".heard" attribute is said where it differs from what is read.
# Unreviewed: a certified translator must check it before use.
plain = { $text }

# The bar at the bottom, and long lists.
bar-back = Atrás
bar-next = Siguiente
bar-hear-again = Oír otra vez
bar-comfort = Tamaño y sonido
bar-help = Ayuda
bar-done = Listo
bar-skip = Saltar
bar-to-review = Volver a la revisión
bar-keep = Guardar mis opciones
more-above = { $count } más arriba
more-below = { $count } más abajo
state-demo = Demostración. Esta no es una boleta real.
state-test = Prueba. Esta no es una boleta real.
notice-no-speech = El sonido se detuvo. Se llamó a un trabajador. Puede seguir con la pantalla.
option-place = Opción { $option } de { $options }.
block-rows = { $first } a { $last }: de { $from } a { $to }.
block-back-one = Volver al último
block-start = Volver al primero de estos
group = Más: { $items }.

# The screen that a voter has hidden.
cover-line = Escuche con los audífonos. La pantalla no responde al toque.
said-covered = La pantalla está oculta. No responde al toque.
said-hidden = Sí. Su pantalla está oculta.
said-shown = No. Su pantalla se puede ver.
screen-is-hidden = pantalla oculta
screen-is-shown = pantalla visible
hide-needs-voice = Primero encienda la voz. Después puede ocultar la pantalla.
ask-hide-heading = ¿Ocultar la pantalla?
ask-hide-line = Entonces la pantalla no responderá al toque. Necesitará teclas o botones.
ask-hide-yes = Sí, ocultarla
ask-hide-no = No, dejarla visible

# Listening to a screen.
listen-heading = Oír esta pantalla
listen-on = Frase siguiente
listen-back = Frase anterior
listen-pause = Pausa
listen-go-on = Seguir
listen-start = Desde el principio
listen-spell = Deletrear el nombre
listen-hidden = ¿Está oculta mi pantalla?
nothing-to-spell = Aquí no hay ningún nombre que deletrear.

# Time.
more-time-heading = ¿Necesita más tiempo?
more-time-line = Pulse cualquier botón para seguir. Sus opciones están guardadas.
more-time-yes = Sí, necesito más tiempo

# Switches and presses.
comfort-hide = Ocultar la pantalla
comfort-show = Mostrar la pantalla
comfort-presses = Botones y pulsaciones
presses-heading = Botones y pulsaciones
presses-line = Cambie esto si sus pulsaciones no salen bien.
one-switch = Usar un botón
two-switches = Usar dos botones
has-one-switch = un botón: la estación avanza sola
has-two-switches = dos botones
scan-faster = Avanzar más rápido
scan-slower = Avanzar más despacio
scan-step = espera { $step } de { $steps }
accept-longer = Contar solo pulsaciones más largas
accept-shorter = Contar también las más cortas
accept-step = duración { $step } de { $steps }
ignore-longer = Esperar más entre pulsaciones
ignore-shorter = Esperar menos entre pulsaciones
ignore-step = espera { $step } de { $steps }
offer-heading = ¿Hacer más fácil pulsar?
offer-accept = Algunas pulsaciones fueron muy cortas. La estación puede no contarlas.
offer-ignore = Algunas pulsaciones llegaron dos veces. La estación puede no contar la segunda.
offer-scan = La estación puede avanzar al ritmo de usted.
offer-yes = Sí, hacerlo
offer-no = No, dejarlo así

# Opening.
opening-heading = Bienvenido. Marque aquí su boleta.
opening-precinct = Su precinto: { $precinct }
opening-party = Partido: { $party }
opening-how = Pulse cualquier botón para seguir.
opening-begin = Empezar
opening-not-mine = Esta no es mi boleta

# Languages.
languages-heading = Elija su idioma
language-name = Español
language-chosen = Español elegido.
state-chosen = elegido
state-not-chosen = no elegido

# Comfort.
comfort-heading = Tamaño, color y sonido
comfort-line = Puede cambiarlos en cualquier momento. No perderá sus opciones.
comfort-larger = Letras más grandes
comfort-smaller = Letras más pequeñas
comfort-colours = Cambiar colores
comfort-speech-on = Encender la voz
comfort-speech-off = Apagar la voz
comfort-faster = Hablar más rápido
comfort-slower = Hablar más despacio
comfort-louder = Más fuerte
comfort-softer = Más bajo
comfort-language = Cambiar idioma
size-small = letras pequeñas
size-medium = letras medianas
size-large = letras grandes
size-largest = letras muy grandes
size-is-most = Esta pantalla no puede mostrar letras más grandes.
palette-dark-on-light = negro sobre blanco
palette-light-on-dark = blanco sobre negro
palette-yellow-on-dark = amarillo sobre negro
palette-low-contrast = colores suaves
pace-step = velocidad { $step } de { $steps }
loudness-step = volumen { $step } de { $steps }
speech-is-on = voz encendida
speech-is-off = voz apagada

# Practice and how to vote.
practice-heading = Pruebe primero
practice-line = ¿Qué fruta le gusta? Elija una. Esto no está en su boleta.
practice-first = Manzana
practice-second = Plátano
practice-third = Cereza
practice-full = Aquí solo puede elegir una. Primero deshaga la que eligió.
practice-chosen = Elegido. Para deshacerlo, elíjalo otra vez.
practice-undone = Ya no está elegido.
how-to-heading = Cómo votar
how-to-choose = Elija un nombre. Su óvalo se pone negro.
how-to-undo = Para deshacerlo, elíjalo otra vez.
how-to-leave = Puede dejar cualquier contienda vacía.
how-to-review = Al final puede ver todas sus opciones y cambiarlas.
how-to-paper = Después imprime su boleta en papel y la revisa.

# A contest.
contest-place = Contienda { $contest } de { $contests }
limit-one = Vote por 1
limit-many = Vote por hasta { $limit }
limit-any = Vote por tantos como quiera
limit-ranks = Ordene hasta { $limit }. La opción 1 es la que más le gusta.
limit-measure = Elija 1 respuesta
count-chosen = { $chosen ->
    [0] No ha elegido ninguno.
   *[other] Ha elegido { $chosen } de { $limit }.
} { $left ->
    [0] No puede elegir más.
   *[other] Puede elegir { $left } más.
}
count-ranked = { $chosen ->
    [0] No ha ordenado ninguno.
   *[other] Ha ordenado { $chosen } de { $limit }.
} { $left ->
    [0] No puede ordenar más.
   *[other] Puede ordenar { $left } más.
}
affects-party = { $count ->
    [one] Lo que elija aquí cuenta también en { $count } contienda más, para la gente de ese partido. Allí todavía puede elegir.
   *[other] Lo que elija aquí cuenta también en { $count } contiendas más, para la gente de ese partido. Allí todavía puede elegir.
}
affects-activation = Su respuesta puede decidir si esta contienda cuenta: { $contests }. Todavía puede votar en ella.
read-full-text = Leer el texto completo
full-text-heading = Texto completo: { $title }
write-in-row = Escribir un nombre
write-in-named = Nombre escrito: { $name }
write-in-blank = Nombre escrito, sin letras
state-rank = opción { $rank }
state-no-rank = sin orden
said-chosen = Elegido: { $name }.
said-undone = Ya no está elegido: { $name }.
said-ranked = { $name } es ahora la opción { $rank }.

# The limit.
limit-heading = { $limit ->
    [one] Ha elegido { $limit }. Es lo más que puede elegir aquí.
   *[other] Ha elegido { $limit }. Es lo más que puede elegir aquí.
}
limit-line = Para elegir { $wanted }, primero deshaga uno de estos.
undo-option = Deshacer { $name }

# Ranks.
rank-pick-heading = ¿Qué opción es { $name }?
rank-free = Opción { $rank }
rank-taken = La opción { $rank } es { $name }.
rank-change-heading = { $name } es su opción { $rank }
rank-undo = Deshacer esta opción
rank-move = Hacerla la opción { $rank }
lower-heading = ¿Subir sus opciones más bajas?
lower-line = Está quitando una opción. Las de abajo pueden subir o quedarse donde están.
lower-move-up = Subirlas
lower-stay = Dejarlas como están

# Writing in.
write-in-heading = Escriba un nombre
write-in-line = Escriba solo un nombre que no está en la lista.
write-in-so-far = Hasta ahora: { $name }
write-in-nothing = Todavía no hay nada escrito.
keys-row = { $first } a { $last }
key-name = { $letter }
key-written = { $letter }
key-refused = { $letter } no cabe. El nombre está lleno.
write-in-delete = Quitar la última letra
write-in-deleted = Quitada: { $letter }
write-in-no-letter = No hay ninguna letra que quitar.
write-in-spell = Oír las letras
write-in-spelled = { $letters }
write-in-finish = El nombre está listo
blank-heading = No escribió ningún nombre
blank-line = Un voto escrito sin nombre quizá no cuente.
blank-write = Escribir un nombre
blank-keep = Dejarlo marcado sin nombre
blank-undo = No usar el nombre escrito
write-in-change-heading = Usted escribió un nombre
write-in-edit = Cambiar el nombre
write-in-undo = Deshacer el nombre escrito

# Review and print.
review-heading = Revise sus opciones
review-complete = { $complete ->
   *[other] Ha terminado { $complete } de { $contests } contiendas.
}
review-left = { $left ->
    [one] En { $left } contienda quedan opciones. Está primero. Está bien si así lo quiere.
   *[other] En { $left } contiendas quedan opciones. Están primero. Está bien si así lo quiere.
}
review-how = Para cambiar una opción, elija su contienda.
review-title = { $contest }. { $title }
review-nothing = Nada elegido
review-chosen = { $names }
review-more-left = { $left ->
   *[other] Puede elegir { $left } más.
}
review-full = Listo.
review-ranked = opción { $rank }: { $name }
review-print = Imprimir
ask-print-heading = ¿Imprimir su boleta ahora?
ask-print-line = Después de imprimir, no puede cambiar este papel. Lo revisará antes de entregarlo.
ask-print-left = { $left ->
    [one] En { $left } contienda todavía quedan opciones.
   *[other] En { $left } contiendas todavía quedan opciones.
}
ask-print-yes = Sí, imprimir mi boleta
ask-print-no = No, volver a mis opciones
printing-heading = Su boleta se está imprimiendo
printing-line = Espere, por favor.
print-fault-heading = Su boleta no se imprimió
fault-paper = La impresora no tiene papel.
fault-jam = Hay papel atascado en la impresora.
fault-offline = La impresora no responde.
fault-not-made = No se pudo preparar la boleta para la impresora.
fault-kept = No es culpa suya. Sus opciones están guardadas. Un trabajador puede ayudar.
print-again = Intentar imprimir otra vez
call-worker = Llamar a un trabajador

# The paper.
reading-heading = La estación está leyendo su papel
reading-line = Espere, por favor.
read-fault-heading = No se pudo leer su papel
fault-no-sheet = No se encontró ninguna hoja.
fault-unreadable = Las marcas de la hoja no estaban claras.
fault-other-ballot = Esta es una hoja de otra boleta.
fault-print-differs = Algo en la hoja no está como debe. No use esta hoja.
read-again = Leer el papel otra vez
new-sheet = Recibir una boleta nueva
check-heading = ¿Está bien su boleta de papel?
check-line = Mire cada contienda en el papel, o haga que se lo lean. Todavía no está entregada.
check-sheets = { $sheets ->
    [one] Su boleta está en { $sheets } hoja.
   *[other] Su boleta está en { $sheets } hojas.
}
check-yes = Sí, está bien
check-no = No, algo está mal
check-read = Léamela
read-back-heading = Esto está en su papel
read-back-line = Estas palabras vienen del papel.
paper-contest = { $title }
paper-nothing = No hay nada marcado
paper-marked = Marcado: { $names }
paper-ranked = { $names }
paper-rank = opción { $rank }, { $name }
paper-doubt = Una marca aquí no está clara. Por favor, mírela.
paper-write-in-read = nombre escrito { $name }
paper-write-in-unread = un nombre escrito a mano o a máquina que no puedo leer
paper-write-in-none = nombre escrito, sin letras
differs-heading = El papel no es lo que usted eligió
differs-line = No use este papel. No es culpa suya. Reciba una boleta nueva o llame a un trabajador.
differs-where = Mire: { $contests }
spoil-heading = Recibir una boleta nueva
spoil-device-heading = Recibirá una boleta nueva
spoil-line = No entregue el papel que tiene. Déselo a un trabajador. ¿Qué quiere hacer?
spoil-left = { $left ->
    [one] Puede recibir { $left } boleta nueva más aquí.
   *[other] Puede recibir { $left } boletas nuevas más aquí.
}
spoil-none = Ya recibió todas las boletas nuevas que esta estación puede imprimir para usted. Un trabajador puede ayudarle.
spoil-keep = Guardar mis opciones y corregirlas
spoil-fresh = Empezar otra vez sin opciones
spoil-cancel = Volver, el papel está bien
done-heading = Su boleta está impresa. Todavía no está entregada.
done-line = Lleve su papel a la urna o al lector de boletas. Solo cuenta cuando la entrega.
done-sheets = { $sheets ->
    [one] Tiene { $sheets } hoja para entregar.
   *[other] Tiene { $sheets } hojas para entregar. Entréguelas todas.
}
done-thanks = Esta estación no guarda ningún voto. Gracias.
done-leave = Tengo mi papel. Ya terminé.

# Help and the worker.
help-heading = ¿Cómo podemos ayudar?
help-explain = Explicar esta pantalla
help-worker = Llamar a un trabajador
explain-heading = Sobre esta pantalla
worker-heading = La pantalla está oculta
worker-line = Se llamó a un trabajador. Sus opciones están guardadas. Nadie puede verlas.
worker-asked = El votante pidió ayuda.
worker-not-mine = El votante dice: esta no es mi boleta.
worker-replacements = El votante quiere otra boleta nueva.
worker-device = Un aparato necesita a un trabajador.
worker-no-press = Nadie ha pulsado un botón desde hace un rato.
worker-came = Un trabajador está aquí. Sus opciones están ocultas y guardadas.
worker-return = Volver a donde estaba el votante
worker-here = Hay un trabajador aquí
worker-end = Trabajador: terminar esta visita
confirm-end-heading = ¿Terminar esta visita?
confirm-end-line = Todas las opciones se borrarán. Si se imprimió una hoja, hay que sacarla.
confirm-end-yes = Sí, terminar la visita
confirm-end-no = No, volver
ended-heading = Esta visita terminó
ended-line = No se guardó nada.

# What each screen is for.
explain-opening = Esta pantalla muestra qué boleta va a marcar. Si no es la suya, dígalo aquí.
explain-languages = Elija el idioma que quiere leer y oír.
explain-comfort = Haga las letras más grandes, cambie los colores o cambie la voz.
explain-presses = Aquí puede cambiar cómo funcionan sus botones y pulsaciones.
explain-hide = Oculte la pantalla si escucha y no quiere que nadie vea sus opciones.
explain-practice = Aquí puede probar cómo elegir. No cuenta.
explain-how-to = Estas líneas le dicen cómo votar.
explain-contest = Esta es una contienda de su boleta. Elija los nombres que quiera. Luego siga con Siguiente.
explain-limit = Ha elegido todos los que puede. Deshaga uno si quiere elegir otro.
explain-rank = Aquí pone a las personas en orden. La opción 1 es la que más le gusta.
explain-write-in = Aquí escribe un nombre con las teclas de la pantalla.
explain-full-text = Este es el texto completo de la pregunta.
explain-review = Estas son todas sus opciones. Elija una contienda para cambiarla. Elija Imprimir cuando esté listo.
explain-print = La impresora marca su boleta de papel por usted.
explain-fault = Algo falló en un aparato. No es culpa suya. Un trabajador puede ayudar.
explain-paper = Revise su papel aquí. Puede mirarlo u oír lo que dice.
explain-spoil = Si su papel está mal, puede recibir uno nuevo.
explain-done = Su papel está listo. Llévelo y entréguelo en la urna o en el lector.
explain-switches = Con dos botones: el primero va a lo siguiente. El segundo lo elige. Con un botón, la estación avanza sola. Pulse cuando oiga lo que quiere.
explain-keys = Con teclas: las flechas suben y bajan. Intro elige. P para la voz y la hace seguir. S deletrea un nombre.
explain-touch = Con el dedo: toque lo que quiera.

# Joining, letters and names.
list-separator = { ", " }
ticket-separator = { " y " }
letter-space = espacio
letter-hyphen = guion
letter-apostrophe = apóstrofo
letter-period = punto
letter-a-acute = Á
    .heard = A con acento
letter-e-acute = É
    .heard = E con acento
letter-i-acute = Í
    .heard = I con acento
letter-o-acute = Ó
    .heard = O con acento
letter-u-acute = Ú
    .heard = U con acento
letter-n-tilde = Ñ
    .heard = eñe
letter-u-diaeresis = Ü
    .heard = U con diéresis
letter-a-diaeresis = Ä
    .heard = A con diéresis
letter-e-diaeresis = Ë
    .heard = E con diéresis
letter-i-diaeresis = Ï
    .heard = I con diéresis
letter-o-diaeresis = Ö
    .heard = O con diéresis
letter-c-cedilla = Ç
    .heard = C con cedilla
