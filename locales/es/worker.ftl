# Lo que lee un trabajador al preparar una estación. A machine wrote this; nobody has reviewed it.
worker-band = Trabajador electoral
step-place = Paso { $step } de { $steps }
worker-bar-back = Atrás
worker-bar-next = Siguiente
worker-bar-save = Guardar
worker-bar-done = Listo

card-heading = Mida esta pantalla
card-hold = Ponga una tarjeta bancaria o una licencia de conducir contra el recuadro.
card-match = Haga el recuadro tan ancho y tan alto como la tarjeta. De él dependen todos los tamaños de letra.
card-size = Medida: { $inches } pulgadas de esquina a esquina, { $width } por { $height } milímetros.
card-out-of-range = Una pantalla de { $inches } pulgadas no sirve: las boletas necesitan de unas 15 a 32 pulgadas. Mida otra vez.
card-wider = Más ancho
card-narrower = Más angosto
card-much-wider = Mucho más ancho
card-much-narrower = Mucho más angosto

switch-first-heading = El primer interruptor
switch-first-press = Oprima el primer interruptor: el que avanza.
switch-second-heading = El segundo interruptor
switch-second-press = Oprima el segundo interruptor: el que elige.
switch-any-road = Puede ser una tecla, un botón del ratón o un botón de un mando.
switch-escape = Para usar esta pantalla, toque sus botones. La tecla Escape regresa.
switch-again = Se oyó: { $button }. Oprímalo una vez más.
switch-other = Esta vez fue { $button }. Oprima dos veces el interruptor que quiere.
switch-same = Ese es el primer interruptor ({ $button }). Oprima el otro.
switch-skip = Dejar los interruptores como están
switch-restart = Empezar otra vez con el primer interruptor

try-heading = Pruebe los dos interruptores
try-press = Oprima cada interruptor al menos una vez.
try-first = Primer interruptor, { $button }: { $count ->
    [0] todavía no
    [one] oprimido una vez
   *[other] oprimido { $count } veces
}
try-second = Segundo interruptor, { $button }: { $count ->
    [0] todavía no
    [one] oprimido una vez
   *[other] oprimido { $count } veces
}
try-unknown = { $button } no es ninguno de los dos interruptores.

keep-heading = ¿Guardar esto?
keep-switches = Primer interruptor: { $first }. Segundo interruptor: { $second }.
keep-switches-usual = Los interruptores quedan como están.
keep-failed = No se pudo guardar. Vea el mensaje en el registro de la estación y elija Guardar otra vez.
kept-heading = Guardado
kept-line = Inicie la estación de nuevo para usarlo.

# Cómo se llama un botón.
button-key = la tecla { $name }
button-mouse-left = el botón izquierdo del ratón
button-mouse-right = el botón derecho del ratón
button-mouse-middle = el botón central del ratón
button-pad = el botón «{ $name }» del mando
button-up = flecha arriba
button-down = flecha abajo
button-left = flecha izquierda
button-right = flecha derecha
button-space = barra espaciadora
