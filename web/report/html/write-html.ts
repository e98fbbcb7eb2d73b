import type { ReportDocument } from '../document.ts'
import { factLines } from '../fact-lines.ts'
import { asSentence } from '../keep-units.ts'
import { type NumberedBlock, type NumberedFigure, numbered } from '../numbered.ts'
import { escapeMarkup } from './escape.ts'
import { pageStyle } from './page-style.ts'
import { createFigureStyles, type FigureStyles, writeSvg } from './write-svg.ts'
import { markupOf, writeTable } from './write-table.ts'

/**
 * Writes a report as one page that needs nothing beside itself: no script, no picture, no font. It is XML as well as
 * HTML. The same report is the same text.
 */
export function writeHtml(document: ReportDocument): string {
  const { facts } = document
  const parts = numbered(document)
  const styles = createFigureStyles()
  const statement = parts.statement.map((block) => blockMarkup(block, styles))
  const blocks = parts.blocks.map((block) => blockMarkup(block, styles))
  const headings = parts.blocks.flatMap((block) =>
    block.block === 'heading' && block.level < 3 ? [block] : [],
  )
  const facing = factLines(document).map(
    ({ name, value }) => `<dt>${escapeMarkup(name)}</dt><dd>${escapeMarkup(value)}</dd>`,
  )
  const contents = headings.map(
    ({ level, number, text, anchor }) =>
      `<li class="level-${level}"><a href="#${anchor}"><span class="number">${number}</span>${escapeMarkup(text)}</a></li>`,
  )
  const warned =
    facts.watermark === null ? [] : [`<p class="watermark" role="note">${escapeMarkup(facts.watermark)}</p>`]
  return [
    '<!DOCTYPE html>',
    `<html lang="${escapeMarkup(document.language)}">`,
    '<head>',
    '<meta charset="utf-8"/>',
    '<meta name="viewport" content="width=device-width, initial-scale=1"/>',
    `<meta name="generator" content="Stillground ${escapeMarkup(facts.software)}"/>`,
    `<title>${escapeMarkup(`${facts.site}: ${document.title}`)}</title>`,
    `<style>${pageStyle(document)}\n${styles.css()}\n</style>`,
    '</head>',
    '<body>',
    '<a class="skip" href="#statement">To the statement of the engineer</a>',
    '<header>',
    ...warned,
    `<p class="site">${escapeMarkup(facts.site)}</p>`,
    `<h1>${escapeMarkup(document.title)}</h1>`,
    `<dl class="facts">${facing.join('\n')}</dl>`,
    '</header>',
    '<main>',
    '<section id="statement" tabindex="-1" aria-label="Statement of the engineer">',
    ...statement,
    '</section>',
    ...(contents.length === 0
      ? []
      : [
          `<nav class="contents" aria-labelledby="contents"><h2 id="contents">Contents</h2><ol>${contents.join('\n')}</ol></nav>`,
        ]),
    ...blocks,
    '</main>',
    `<footer><p>${escapeMarkup(`${facts.site}, ${facts.number}. ${facts.cutOff}. ${facts.provisionalShare}.`)}</p></footer>`,
    '</body>',
    '</html>',
    '',
  ].join('\n')
}

function blockMarkup(block: NumberedBlock, styles: FigureStyles): string {
  switch (block.block) {
    case 'heading': {
      const number = block.number === '' ? '' : `<span class="number">${block.number}</span>`
      return `<h${block.level + 1} id="${block.anchor}">${number}${escapeMarkup(block.text)}</h${block.level + 1}>`
    }
    case 'paragraph':
      return `<p>${markupOf(block.words)}</p>`
    case 'list': {
      const tag = block.ordered ? 'ol' : 'ul'
      return `<${tag}>${block.entries.map((words) => `<li>${markupOf(words)}</li>`).join('\n')}</${tag}>`
    }
    case 'table':
      return writeTable(block)
    case 'figure':
      return figureMarkup(block, styles, 840)
    case 'figure-pair':
      return `<div class="pair">${block.figures.map((figure) => figureMarkup(figure, styles, 500)).join('\n')}</div>`
    case 'caution':
      return `<div class="caution" role="note"><p><strong>${escapeMarkup(block.heading)}</strong></p>${block.words.map((words) => `<p>${markupOf(words)}</p>`).join('')}</div>`
    case 'page-break':
      return '<div class="turn"></div>'
  }
}

function figureMarkup(figure: NumberedFigure, styles: FigureStyles, widthPixels: number): string {
  const link = figure.standsFor
    ? ` The numbers are in <a href="#${figure.standsFor.anchor}">Table ${figure.standsFor.number}</a>.`
    : ''
  return [
    `<figure id="${figure.anchor}">`,
    writeSvg(figure, { widthPixels, fontPixels: 13 }, styles),
    `<figcaption><strong>Figure ${figure.number}.</strong> ${escapeMarkup(figure.standsFor ? asSentence(figure.caption) : figure.caption)}${link}</figcaption>`,
    '</figure>',
  ].join('\n')
}
