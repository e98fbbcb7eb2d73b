import { createSignal } from 'solid-js'

/** What is done along the works, in the order in which it is offered. */
export const fieldPages = [
  'round',
  'scan',
  'reading',
  'note',
  'install',
  'commission',
  'coverage',
  'memory',
  'labels',
  'outbox',
  'device',
] as const
export type FieldPage = (typeof fieldPages)[number]

export const firstFieldPage: FieldPage = 'round'

const [fieldPage, setFieldPage] = createSignal<FieldPage>(firstFieldPage)

export { fieldPage }

export function openFieldPage(page: FieldPage): void {
  setFieldPage(page)
}
