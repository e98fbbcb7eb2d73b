import type { ReportPart } from '#domain/report/report.ts'
import { findRevisions } from '../derived/report/find-revisions.ts'
import { gatherReadings, type ReportReadings } from '../derived/report/gather-readings.ts'
import type { Block, ReportDocument, Words } from './document.ts'
import { changesPart } from './parts/changes-part.ts'
import { calibrationsPart, cautionsPart, makingPart, minutesPart } from './parts/closing-parts.ts'
import { completenessPart } from './parts/completeness-part.ts'
import { exceedancesPart } from './parts/exceedances-part.ts'
import { historiesPart } from './parts/histories-part.ts'
import { inFigures } from './parts/in-figures.ts'
import { planPart } from './parts/plan-part.ts'
import { profilesPart } from './parts/profiles-part.ts'
import { shareWords, wordsOf } from './parts/report-words.ts'
import { sectionsPart } from './parts/sections-part.ts'
import { valuesPart } from './parts/values-part.ts'
import { chosenViewsPart } from './parts/views-part.ts'
import type { ReportSources } from './report-sources.ts'

/**
 * A report from its manifest and frozen data, and nothing else: no clock, no chance, no language or zone of the machine.
 * The same sources give the same document. Throws where the engine cannot answer.
 */
export async function composeReport(sources: ReportSources): Promise<ReportDocument> {
  const { manifest } = sources
  const tell = sources.onProgress ?? (() => {})
  tell('Reading the frozen data …', 0.05)
  const readings = await gatherReadings(sources)
  tell('Looking for revised values …', 0.25)
  const revisions = await findRevisions(sources)
  const has = (part: ReportPart) => manifest.parts.includes(part)
  const blocks: Block[] = [...changesPart(sources, revisions)]
  if (has('exceedances')) blocks.push(...exceedancesPart(sources))
  blocks.push(...completenessPart(sources, readings), ...valuesPart(sources, readings))
  if (has('plan')) {
    tell('Drawing the plan and its contours …', 0.35)
    blocks.push(...(await planPart(sources, readings)))
  }
  if (has('sections')) {
    tell('Drawing sections …', 0.4)
    blocks.push(...sectionsPart(sources, readings))
  }
  if (has('profiles')) blocks.push(...(await profilesPart(sources, readings)))
  if (has('histories')) blocks.push(...(await historiesPart(sources, readings)))
  blocks.push(...(await chosenViewsPart(sources, readings)))
  if (has('calibrations')) blocks.push(...calibrationsPart(sources))
  if (has('minutes')) blocks.push(...minutesPart(sources))
  blocks.push(...cautionsPart(sources), ...makingPart(sources))
  return {
    title: titleOf(sources),
    language: 'en-GB',
    paper: manifest.paper,
    facts: factsOf(sources, readings),
    statement: [...statementOf(manifest.statement.text), inFigures(sources, readings, revisions)],
    blocks,
    datedEpochMs: manifest.statement.atEpochMs,
  }
}

const kindNames = {
  weekly: 'Weekly report',
  monthly: 'Monthly report',
  'on-request': 'Report on request',
} as const

const titleOf = ({ manifest }: ReportSources): string => `${kindNames[manifest.kind]} ${manifest.number}`

function factsOf(sources: ReportSources, { provisional }: ReportReadings): ReportDocument['facts'] {
  const { manifest, now } = sources
  const { facts } = now.site
  const words = wordsOf(sources)
  const { all, provisional: open } = provisional
  return {
    site: facts.name,
    number: titleOf(sources),
    period: `${words.day(manifest.fromEpochMs)} to ${words.lastDay(manifest.untilEpochMs)}, site time (${facts.timeZone})`,
    cutOff: `Data received until ${words.at(manifest.cutOffEpochMs)}`,
    provisionalShare:
      all === 0
        ? 'No reading in the period'
        : `${shareWords(open, all)} of the readings of the period are provisional`,
    statementBy: `${manifest.statement.author}, ${words.at(manifest.statement.atEpochMs)}`,
    watermark: facts.watermark,
    software: manifest.software,
    more: [
      {
        name: 'Compared with',
        value:
          manifest.previousNumber === null
            ? 'no issue before: this is the first of its kind'
            : `issue ${manifest.previousNumber}`,
      },
      { name: 'Frozen data set', value: manifest.frozenSet },
    ],
  }
}

/** Paragraphs as they were written, parted by empty lines; lines that begin with a dash are a list. */
function statementOf(text: string): readonly Block[] {
  return text
    .replaceAll('\r\n', '\n')
    .split(/\n\s*\n/)
    .map((one) => one.trim())
    .filter((one) => one !== '')
    .map((one): Block => {
      const lines = one.split('\n').map((line) => line.trim())
      if (lines.every((line) => /^[-–•] /.test(line)))
        return { block: 'list', ordered: false, entries: lines.map((line): Words => line.slice(2)) }
      return { block: 'paragraph', words: lines.join(' ') }
    })
}
