import type { LabelKey } from './labels.ts'

/** Spanish as US crews use it: common practice, no source. */
export const es: Record<LabelKey, string> = {
  ordered: 'Pedido',
  ticketNumber: 'Boleta núm.',
  truck: 'Camión',
  yards: 'Yardas',
  batched: 'Cargado',
  limit: 'Límite',
  water: 'Agua',
  slump: 'Revenimiento',
}
