import type { Analysis } from '#domain/ground/analysis.ts'
import type { MeasuredDrawdown } from '#domain/ground/groundwater/measured-drawdown.ts'

/** The account of many readings names each tip once: the method says how many readings there were. */
export function onceATip<Of extends Analysis<MeasuredDrawdown>>(account: Of): Analysis<MeasuredDrawdown> {
  const first = new Map(account.used.map((one) => [one.id, one]))
  const firstOut = new Map(account.leftOut.map((one) => [`${one.item.id} ${one.reason}`, one]))
  return { ...account, used: [...first.values()], leftOut: [...firstOut.values()] }
}
