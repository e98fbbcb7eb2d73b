import { randomUUID } from 'node:crypto'
import type { AlertMessage } from './delivery-way.ts'

/** A message by which somebody tries a way of delivery; an exercise to whoever gets it. */
export const testMessage = (
  site: string,
  siteName: string,
  subject: string,
  by: string,
  atEpochMs: number,
): AlertMessage => ({
  id: randomUUID(),
  site,
  siteName,
  alert: 'test',
  exercise: true,
  late: false,
  kind: 'drill',
  subject,
  text: `${by} sent this test from the page. It asks for nothing.`,
  path: site === '' ? '/' : `/?site=${encodeURIComponent(site)}`,
  atEpochMs,
  facts: {},
})
