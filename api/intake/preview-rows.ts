import type { Layout } from '#contract/layout.ts'
import type { PreviewRow } from '#contract/layout-proposal.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { createLoggerRegister } from './logger-register.ts'
import { mapColumns } from './map-columns.ts'
import { parseNumber } from './parse-number.ts'
import type { HeadRow } from './read-head.ts'
import { compileTimePattern } from './time-pattern.ts'
import { openZone, type WallInstant } from './zone-offsets.ts'

const mostReadingsShown = 12

/** The first rows as a layout understands them, at most twelve readings of each. */
export function previewRows(
  layout: Layout,
  names: readonly string[] | null,
  body: readonly HeadRow[],
  model: SiteModel,
): PreviewRow[] {
  const columns = mapColumns(layout, names, names?.length ?? body[0]?.cells.length ?? 0)
  const time = compileTimePattern(layout.time.pattern)
  const zone = openZone(layout.time.zone)
  if (!columns.ok || !time.ok || !zone.ok) return []
  const register = createLoggerRegister(model)
  const mark = layout.decimalMark.charCodeAt(0)
  const wall: WallInstant = { kind: 'once', micros: 0, secondMicros: 0 }
  const map = columns.value
  return body.slice(0, 5).map(({ line, cells }) => {
    const timeText = map.time.map((cell) => cells[cell] ?? '').join(' ')
    const bytes = new TextEncoder().encode(timeText)
    const micros = time.value.read(bytes, 0, bytes.length)
    wall.kind = 'once'
    wall.micros = micros
    if (!Number.isNaN(micros) && !time.value.statesOffset) zone.value.resolve(micros, wall)
    const placed = !Number.isNaN(micros) && wall.kind === 'once'
    return {
      line,
      timeText,
      atEpochMs: placed ? wall.micros / 1000 : null,
      readings: readingCells(map, cells).map(({ logger, channel, text }) => {
        const known = register.find(logger)
        const number = new TextEncoder().encode(text)
        const raw = parseNumber(number, 0, number.length, mark)
        return {
          logger: known?.id ?? logger,
          loggerKnown: known !== undefined,
          channel,
          text,
          raw: Number.isFinite(raw) ? raw : null,
        }
      }),
    }
  })
}

function readingCells(
  map: Extract<ReturnType<typeof mapColumns>, { ok: true }>['value'],
  cells: readonly string[],
): { logger: string; channel: string; text: string }[] {
  if (map.shape === 'long') {
    const logger = map.logger === null ? (map.loggerName ?? '') : (cells[map.logger] ?? '')
    return [{ logger, channel: cells[map.channel] ?? '', text: cells[map.value] ?? '' }]
  }
  return map.roles
    .flatMap((role, cell) =>
      role.role === 'channel'
        ? [{ logger: role.logger, channel: role.channel, text: cells[cell] ?? '' }]
        : [],
    )
    .slice(0, mostReadingsShown)
}
