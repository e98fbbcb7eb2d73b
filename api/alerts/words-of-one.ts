import { isStillReached } from '#domain/alerts/alert.ts'
import { closingStep, dutyOf } from '#domain/alerts/telling.ts'
import { headlineOf } from './alert-headline.ts'
import { cautions } from './cautions.ts'
import { levelLines } from './level-lines.ts'
import { factsOf } from './message-facts.ts'
import type { MessageSite, MessageWords, ToldAlert } from './message-words.ts'

/** What is told of one alert: what, where, value, level, when, what to do, and what must be read with it. */
export function wordsOfOne(told: ToldAlert, site: MessageSite): MessageWords {
  const { alert } = told
  const path = pathOf(site, alert.alert)
  if (told.step === closingStep) return closingWords(told, site)
  const headline = headlineOf(told, site)
  const lines = alert.cause.kind === 'drill' ? drillLines(alert.cause) : levelLines(told, site)
  return {
    subject: headline,
    text: [
      `${headline}.`,
      '',
      ...lines,
      '',
      `You are told because you are on for ${dutyOf(alert)}${reasonOf(told)}.`,
      'Take it up in the page: acknowledging ends the telling and nothing else. What was found, and closing, are said there later.',
      '',
      ...cautions(site.silent),
    ].join('\n'),
    path,
    facts: factsOf(told),
  }
}

/** That a response was closed says nothing about the ground. */
function closingWords(told: ToldAlert, site: MessageSite): MessageWords {
  const { alert } = told
  const subject = `response closed: ${headlineOf(told, site)}`
  const { closed, verified } = alert
  return {
    subject,
    text: [
      `${subject}.`,
      '',
      ...(verified ? [`Found by ${verified.by}: ${verified.note}`] : []),
      ...(closed ? [`Closed by ${closed.by}: ${closed.note}`] : []),
      isStillReached(alert)
        ? 'By its last readings the level is still reached. Closing ends a response and changes nothing in the ground.'
        : 'Closing ends a response; it says nothing about the ground.',
      '',
      ...cautions(site.silent),
    ].join('\n'),
    path: pathOf(site, alert.alert),
    facts: { ...factsOf(told), finding: verified?.finding ?? null },
  }
}

function reasonOf({ alert, step, round }: ToldAlert): string {
  if (round > 1) return ', and nobody has taken it up yet: this is said again until somebody does'
  if (step === 1) return ''
  const { escalation } = alert
  switch (escalation?.because) {
    case 'nobody-on':
      return ', and nobody was on for the step before'
    case 'not-delivered':
      return ', and nobody before you was reached'
    default:
      return ', and nobody before you has taken it up'
  }
}

/** What is tested, and why now. */
const drillLines = ({
  duty,
  reason,
}: {
  readonly duty: string
  readonly reason: string
}): readonly string[] =>
  [
    `This tests whether ${duty} is reached and answers. Nothing was measured.`,
    reason === '' ? '' : `Why now: ${reason}`,
  ].filter((line) => line !== '')

const pathOf = ({ facts }: MessageSite, alert: number): string =>
  `/?site=${encodeURIComponent(facts.id)}&sheet=alerts&alert=${alert}`
