import type { recordDrawnEn } from './record-drawn-en.ts'

/** Lo que dicen los dibujos, la portada y las fotos del registro. */
export const recordDrawnEs: Readonly<Record<keyof typeof recordDrawnEn, string>> = {
  recDrawnHead: 'El colado en una hoja',
  recDrawnKey:
    'Relojes del {day}, UTC{offset}. Línea cortada: en camino desde que se cargó. Barra abierta: junto a las formas, sin descargar. Barra oscura: descargando; con cruces: en pausa. Cada palabra está junto a la línea de su momento. †: anotado más de 10 minutos después de que pasó. Fuentes, personas y segundas respuestas están en las hojas que siguen.',
  recDrawnNoTrucks: 'No se anotó ninguna hora de ninguna carga.',
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
    'Fotos que se anotaron: {n}; {cited} de ellas están junto a los datos de las cargas, las demás aquí. Están impresas más chicas de lo que son; los archivos como llegaron están en photos/, cada uno con su SHA-256 completo, del que el pie da el principio. Un marco vacío es un archivo que este programa no puede dibujar; el archivo mismo está ahí.',
  recDrawnOutside:
    'Otros apuntes de clima, acabado y curado son de otros días y no están dibujados: {n}. Están en las listas que siguen.',
}
