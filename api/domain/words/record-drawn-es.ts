import type { recordDrawnEn } from './record-drawn-en.ts'

/** Lo que dicen los dibujos, la portada y las fotos del registro. */
export const recordDrawnEs: Readonly<Record<keyof typeof recordDrawnEn, string>> = {
  recDrawnHead: 'El colado en una hoja',
  recDrawnKey:
    'Relojes del {day}, UTC{offset}. Línea cortada: en camino desde que se cargó. Barra abierta: junto a las formas, sin descargar. Barra oscura: descargando; con cruces: en pausa. Cada palabra está junto a la línea de su momento. †: apuntado más de 10 minutos después de que pasó. Fuentes, personas y segundas respuestas están en las hojas que siguen.',
  recDrawnNoTrucks: 'No se apuntó ninguna hora de ninguna carga.',
  recDrawnLimit: 'límite {minutes} min',
  recDrawnWater: 'agua: {amount}',
  recDrawnLate: '{text} †',
  recDrawnMark: '†',
  recDrawnTimes:
    'Cargado {batched}; llegó {arrived}; descarga empezó {started}, terminó {ended}; se fue {left}.',
  recDrawnMinutes:
    'Desde que se cargó: {start} al principio, {end} al fin de la descarga. Límite: {limit}. Agua en obra: {water}.',
  recDrawnGap: '{minutes} min entre las dos',
  recDrawnOverlap: '{minutes} min las dos a la vez',
  recDrawnDay: 'El día: clima, acabado y curado',
  recDrawnDischarge: 'Descarga, por carga',
  recDrawnCrowd: '{n} en total, demasiado juntos para sus palabras aquí; están en las listas que siguen',
  recPrintFile: 'photos/{hash}…',
  recPrintsAre:
    'Fotos que se apuntaron: {n}; {cited} de ellas están junto a los datos de las cargas, las demás aquí. Están impresas más chicas de lo que son; los archivos como llegaron están en photos/, cada uno con su SHA-256 completo, del que el pie da el principio. Un marco vacío es un archivo que este programa no puede dibujar; el archivo mismo está ahí.',
  recDrawnOutside:
    'Otros apuntes de clima, acabado y curado son de otros días y no están dibujados: {n}. Están en las listas que siguen.',
  recSketchHead: 'A dónde fue cada carga',
  recSketchKey:
    'Las partes como se planearon, todas a una escala, cada una a lo largo desde la punta de la que se cuentan sus distancias. Sombreado: a dónde se dijo que fue una carga. Línea cortada: cortes de sierra donde se apuntó su separación, contados desde esa punta; dónde está de verdad cada corte no se midió.',
  recSketchShared: '{loads}: en qué lugar de esta parte no está apuntado',
  recSketchNone: 'no se dijo que fuera aquí ninguna carga',
  recSketchNote: '{part}. Profundidades: {depths}. Fotos: {photos}.',
  recScopeLoad: '{load} (número entre las cargas de este registro)',
  recYardsPart:
    'Este registro no tiene todo lo que se apuntó de las yardas de la obra, así que aquí no se hace ninguna suma de la obra.',
  recRatioNoWaterHere: 'con agua en obra: sin calcular, porque no está en este registro',
  recReadings: 'Lecturas',
  recInstrumentsHead: 'Lecturas: quién las tomó y con qué',
  recNoReadings: 'De ninguna lectura se apuntó quién la tomó ni con qué.',
  recCalibration:
    'Cuándo se calibró o revisó por última vez un instrumento, y hasta cuándo valen los papeles de quien prueba, no lo puede decir ningún apunte de esta versión de la bitácora: pregunte a quien tomó la lectura.',
  recLimitsHead: 'Límites con los que se compararon las cifras',
  recLimitOf: 'De',
  recLimitValue: 'Límite',
  recLimitBy: 'Quién lo dice',
  recLimitEntry: 'Apuntado en',
  recLimitTime: 'Tiempo desde que se cargó',
  recLimitByOrder: 'el pedido',
  recLimitByTicket: 'la boleta, {load}',
  recNoLimits: 'No se apuntó ningún límite; no se supuso ninguno.',
  recLimitsOwn:
    'Cada uno es lo que dice ese pedido o esa boleta, como se apuntó, sin edición de una norma: ninguno la dice. Donde nada se dice, no se supone ninguno: ASTM C94/C94M-21 deja el límite de tiempo al comprador o al productor y lo pone en la boleta (según textos del oficio; compruébelo con la norma).',
  recLimitsOurs:
    'De este programa: tardío es más de 10 minutos entre el hecho y el apunte; el agua se toma a 8.34 lb/gal.',
  recTallyEntries: 'apuntes',
  recTallyLoads: 'cargas',
  recTallyLate: 'apuntados tarde †',
  recTallyChanges: 'corregidos, retirados',
  recTallyWithheld: 'fuera del registro',
  recTallyGaps: 'huecos nombrados',
  recScope: 'Abarca',
  recScopeWhole: 'toda la obra',
  recScopeFrom: 'desde el {day}',
  recScopeTo: 'hasta el {day}',
  recWithholdAsked: 'Retenido a pedido',
  recWithholdPersonal: 'cliente y dirección',
  recMissingEntries: 'No está en este registro',
  recMissingEntriesAre:
    '{n} apuntes: {entries}. Sus lugares y hashes están en thread.txt. «No está en este registro» junto a un dato quiere decir que ningún apunte de aquí lo dice; uno de estos tal vez sí.',
  recFingerprint: 'La huella corta de este registro',
  recFingerprintIs:
    'Ocho palabras por el estado de la bitácora de la que se hizo este registro: su origen, tamaño y raíz, cuántos apuntes tenía esta obra, y su última hoja. Están al pie de cada hoja. Quien tenga un registro, o un comprobante de testigo del mismo momento, puede compararlas en voz alta. No son de este archivo: su idioma y lo retenido no están en ellas.',
  recReadThis: 'Para leer esto',
  recReadLate:
    '† marca lo que se apuntó más de 10 minutos después de que pasó, con los minutos. Todo lo demás se apuntó dentro de 10 minutos, por el reloj del aparato.',
  recReadChanges:
    'Un valor corregido nombra el apunte del primero; los dos están en «Correcciones y retiros».',
  recReadWords:
    '«Ninguna» es una respuesta que alguien apuntó. «No se tomó», «la boleta no lo dice», «no se sabe» y «sin apuntar» son otras cuatro cosas.',
  recReadLast: 'Lo que este registro no muestra, cómo se hizo y cómo revisarlo está en las últimas hojas.',
  recNotHere: 'no está en este registro',
  recNoLimitHere: 'límite no dicho en este registro',
  recNoWaiverHere: 'ninguna dispensa en este registro',
  recSilentHere: 'De ninguna carga tiene este registro nada sobre: {what}.',
  recGapsHeadHere: 'Lo que no se apuntó, o no está en este registro',
  recGapNightsHere:
    'protección y temperatura de noche después de la noche del {night}: no está en este registro',
  recNothingHere: 'Este registro no tiene nada de eso.',
  recLateGroup:
    'Tardío: {what}, {n} apuntes ({entries}); ocurrieron de {first} a {last}, apuntados {least} a {most} min después, {who}.',
  recFooterPart:
    '{words} · {withheld} apuntes fuera de este registro · {job} · apunte {size} de la bitácora, {made} · página {page} de {pages}',
}
