import { xmlTree, type XmlElement } from './xml-tree.ts';

/** One shape of a drawn logo: a path in its own coordinates, and how it comes onto the drawing. */
export interface LogoShape {
  path: string;
  /** a b c d e f, as SVG and PDF write it. */
  matrix: Matrix;
  /** "#1a2b3c", null: none. */
  fill: string | null;
  fillOpacity: number;
  evenOdd: boolean;
  stroke: string | null;
  strokeOpacity: number;
  strokeWidth: number;
  cap: 'butt' | 'round' | 'square';
  join: 'miter' | 'round' | 'bevel';
  miterLimit: number;
  dash: number[];
}
type Matrix = readonly [number, number, number, number, number, number];

/** A logo as lines and areas. */
export interface VectorLogo {
  x: number;
  y: number;
  width: number;
  height: number;
  shapes: LogoShape[];
}

/** What cannot be drawn; thrown and caught within this file. */
class Refused extends Error {}
const refuse = (reason: string): never => {
  throw new Refused(reason);
};

const MOST_SHAPES = 4000;
const identity: Matrix = [1, 0, 0, 1, 0, 0];
/** Left out without a word: they draw nothing, or only through what is refused. */
const silent = new Set(
  'title desc metadata script style defs symbol animate animateTransform animateMotion set marker'.split(' '),
);
const groups = new Set(['g', 'a', 'switch']);
const instead = 'save it with plain shapes and colours, or as PNG';
const refusedElements: Readonly<Record<string, string>> = {
  text: 'it has text, which needs a font that may not be there: turn it into paths',
  image: 'it has a picture within it: save it as PNG as a whole',
  use: `it repeats parts by reference: ${instead}`,
  foreignObject: `it has parts of another format within it: ${instead}`,
  svg: `it has a drawing within the drawing: ${instead}`,
};
const inherited = [
  'fill',
  'fill-opacity',
  'fill-rule',
  'stroke',
  'stroke-opacity',
  'stroke-width',
  'stroke-linecap',
  'stroke-linejoin',
  'stroke-miterlimit',
  'stroke-dasharray',
  'color',
  'visibility',
] as const;
const own = ['opacity', 'display', 'clip-path', 'mask', 'filter', 'transform'] as const;
type Look = Partial<Record<(typeof inherited)[number] | (typeof own)[number], string>>;

/**
 * Reads an SVG drawing for what it shows and nothing else: shapes, their colours and places. Scripts, event handlers, links, animations,
 * notes and whatever a drawing program puts beside are not taken over, and nothing that lies outside of the file is ever asked for. What
 * would show something that is not drawn here (text, pictures, gradients, masks) is refused, so that no logo goes out half.
 * @returns the drawing, or why not
 */
export function vectorLogo(text: string): VectorLogo | string {
  const root = xmlTree(text);
  if (root === null || plainName(root) !== 'svg')
    return 'it is no SVG drawing that can be read; save it again, as plain SVG';
  try {
    const frame = frameOf(root);
    const shapes: LogoShape[] = [];
    const classes = classesOf(root);
    const start = lookOf(root, classes);
    for (const child of root.children) gather(child, start, identity, 1, classes, shapes);
    if (shapes.length === 0) return 'it shows nothing';
    return { ...frame, shapes };
  } catch (error) {
    if (error instanceof Refused) return error.message;
    throw error;
  }
}

/** The same drawing as SVG text of nothing but paths. The same drawing gives the same text, read from either. */
export function vectorLogoSvg({ x, y, width, height, shapes }: VectorLogo): string {
  const numbers = (list: readonly number[]): string => list.map(numberText).join(' ');
  const lines = shapes.map((shape) => {
    const attributes: [string, string][] = [
      ['d', shape.path],
      ...(shape.matrix.every((value, index) => value === identity[index])
        ? []
        : [['transform', `matrix(${numbers(shape.matrix)})`] as [string, string]]),
      ['fill', shape.fill ?? 'none'],
      ...(shape.fillOpacity < 1 ? [['fill-opacity', numberText(shape.fillOpacity)] as [string, string]] : []),
      ...(shape.evenOdd ? [['fill-rule', 'evenodd'] as [string, string]] : []),
    ];
    if (shape.stroke !== null)
      attributes.push(
        ['stroke', shape.stroke],
        ['stroke-width', numberText(shape.strokeWidth)],
        ['stroke-opacity', numberText(shape.strokeOpacity)],
        ['stroke-linecap', shape.cap],
        ['stroke-linejoin', shape.join],
        ['stroke-miterlimit', numberText(shape.miterLimit)],
        ...(shape.dash.length > 0 ? [['stroke-dasharray', numbers(shape.dash)] as [string, string]] : []),
      );
    return `<path ${attributes.map(([name, value]) => `${name}="${value}"`).join(' ')}/>`;
  });
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="${numbers([x, y, width, height])}" width="${numberText(width)}" height="${numberText(height)}">\n${lines.join('\n')}\n</svg>\n`;
}

const plainName = ({ name }: XmlElement): string => name.replace(/^svg:/u, '');
const numberText = (value: number): string => String(Number(value.toFixed(6)) + 0);

function number(text: string | undefined, otherwise: number): number {
  if (text === undefined || text.trim() === '') return otherwise;
  if (!/^\s*[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?\s*(?:px|pt|pc|mm|cm|in)?\s*$/iu.test(text))
    return refuse(`it has a length that depends on its surroundings (“${text.slice(0, 20)}”): ${instead}`);
  return Number.parseFloat(text);
}

function frameOf(root: XmlElement): Omit<VectorLogo, 'shapes'> {
  const box =
    root.attributes
      .get('viewBox')
      ?.trim()
      .split(/[\s,]+/u)
      .map(Number) ?? [];
  const percent = (name: string): string | undefined => {
    const value = root.attributes.get(name);
    return value?.includes('%') ? undefined : value;
  };
  const [x = 0, y = 0, width = number(percent('width'), 0), height = number(percent('height'), 0)] = box;
  if (![x, y, width, height].every(Number.isFinite) || width <= 0 || height <= 0)
    return refuse('it does not say how large it is (viewBox); save it again, as plain SVG');
  return { x, y, width, height };
}

/** Looks by class of the style sheets within the drawing. */
function classesOf(root: XmlElement): ReadonlyMap<string, Look> {
  const found = new Map<string, Look>();
  const visit = (element: XmlElement): void => {
    if (plainName(element) === 'style') {
      const rest = element.text
        .replace(/\/\*[\s\S]*?\*\//gu, '')
        .replace(/([^{}]*)\{([^{}]*)\}/gu, (_, selectors: string, body: string) => {
          for (const selector of selectors.split(',')) {
            const name = /^\s*\.([\w-]+)\s*$/u.exec(selector)?.[1];
            if (name === undefined) return refuse(`its style sheet has more than classes: ${instead}`);
            found.set(name, { ...found.get(name), ...declared(body) });
          }
          return '';
        });
      if (rest.trim() !== '') refuse(`its style sheet has more than classes: ${instead}`);
    }
    element.children.forEach(visit);
  };
  visit(root);
  return found;
}

const isKey = (name: string): name is (typeof inherited)[number] | (typeof own)[number] =>
  ([...inherited, ...own] as readonly string[]).includes(name);

function declared(style: string): Look {
  const look: Look = {};
  for (const declaration of style.split(';')) {
    const colon = declaration.indexOf(':');
    const name = declaration.slice(0, colon).trim().toLowerCase();
    const value = declaration
      .slice(colon + 1)
      .replace(/!important/u, '')
      .trim();
    if (colon > 0 && isKey(name)) look[name] = value;
  }
  return look;
}

/** Attributes, then classes, then the element's own style. */
function lookOf(element: XmlElement, classes: ReadonlyMap<string, Look>): Look {
  const look: Look = {};
  for (const key of [...inherited, ...own]) {
    const value = element.attributes.get(key);
    if (value !== undefined) look[key] = value.trim();
  }
  for (const name of element.attributes.get('class')?.split(/\s+/u) ?? [])
    Object.assign(look, classes.get(name));
  Object.assign(look, declared(element.attributes.get('style') ?? ''));
  return look;
}

function gather(
  element: XmlElement,
  around: Look,
  outer: Matrix,
  opacity: number,
  classes: ReadonlyMap<string, Look>,
  shapes: LogoShape[],
): void {
  const name = plainName(element);
  // A program's own notes stand under names of its own.
  if (silent.has(name) || name.includes(':')) return;
  const reason = refusedElements[name];
  const look = lookOf(element, classes);
  if (look.display === 'none') return;
  if (reason !== undefined) refuse(reason);
  for (const key of ['clip-path', 'mask', 'filter'] as const)
    if (look[key] !== undefined && look[key] !== 'none')
      refuse(`it has a ${key.replace('-', ' ')}: ${instead}`);
  const passed: Look = {};
  for (const key of inherited) {
    const value = look[key] === undefined || look[key] === 'inherit' ? around[key] : look[key];
    if (value !== undefined) passed[key] = value;
  }
  const matrix = look.transform === undefined ? outer : times(outer, matrixOf(look.transform));
  const through = opacity * share(look.opacity);
  if (groups.has(name)) {
    for (const child of element.children) gather(child, passed, matrix, through, classes, shapes);
    return;
  }
  const path = pathOf(name, element);
  if (path === null) refuse(`it has an element that is not drawn here (“${name.slice(0, 20)}”): ${instead}`);
  if (path === null || path === '' || passed.visibility === 'hidden' || passed.visibility === 'collapse')
    return;
  const fill = colourOf(passed.fill ?? '#000000', passed);
  const stroke = colourOf(passed.stroke ?? 'none', passed);
  const strokeWidth = number(passed['stroke-width'], 1);
  if (fill === null && (stroke === null || strokeWidth <= 0)) return;
  shapes.push({
    path,
    matrix: matrix.map((value) => Number(numberText(value))) as unknown as Matrix,
    fill,
    fillOpacity: Number(numberText(through * share(passed['fill-opacity']))),
    evenOdd: passed['fill-rule'] === 'evenodd',
    stroke: strokeWidth > 0 ? stroke : null,
    strokeOpacity: Number(numberText(through * share(passed['stroke-opacity']))),
    strokeWidth: Number(numberText(strokeWidth)),
    cap:
      passed['stroke-linecap'] === 'round' || passed['stroke-linecap'] === 'square'
        ? passed['stroke-linecap']
        : 'butt',
    join:
      passed['stroke-linejoin'] === 'round' || passed['stroke-linejoin'] === 'bevel'
        ? passed['stroke-linejoin']
        : 'miter',
    miterLimit: number(passed['stroke-miterlimit'], 4),
    dash: dashOf(passed['stroke-dasharray']),
  });
  if (shapes.length > MOST_SHAPES)
    refuse(`it has more than ${MOST_SHAPES} shapes, too many for a logo: ${instead}`);
}

function share(text: string | undefined): number {
  if (text === undefined) return 1;
  const value = text.endsWith('%') ? Number.parseFloat(text) / 100 : Number(text);
  return Number.isFinite(value) ? Math.min(1, Math.max(0, value)) : 1;
}

function dashOf(text: string | undefined): number[] {
  if (text === undefined || text === 'none') return [];
  const list = text
    .split(/[\s,]+/u)
    .filter((part) => part !== '')
    .map((part) => number(part, 0));
  const even = list.length % 2 === 1 ? [...list, ...list] : list;
  if (even.length > 2) refuse(`it has dashes of several lengths: ${instead}`);
  return even.some((value) => value < 0) || even.every((value) => value === 0) ? [] : even;
}

/** The 16 names of CSS Level 1, and orange (W3C CSS Color, from memory); others are refused rather than guessed. */
const colours: Readonly<Record<string, string>> = {
  black: '#000000',
  silver: '#c0c0c0',
  gray: '#808080',
  grey: '#808080',
  white: '#ffffff',
  maroon: '#800000',
  red: '#ff0000',
  purple: '#800080',
  fuchsia: '#ff00ff',
  green: '#008000',
  lime: '#00ff00',
  olive: '#808000',
  yellow: '#ffff00',
  navy: '#000080',
  blue: '#0000ff',
  teal: '#008080',
  aqua: '#00ffff',
  orange: '#ffa500',
};

function colourOf(text: string, look: Look): string | null {
  const value = text.trim().toLowerCase();
  if (value === 'none' || value === 'transparent') return null;
  if (value === 'currentcolor') return look.color === undefined ? '#000000' : colourOf(look.color, {});
  if (value.startsWith('url(')) return refuse(`it has a gradient or a pattern: ${instead}`);
  if (/^#[\da-f]{6}$/u.test(value)) return value;
  if (/^#[\da-f]{3}$/u.test(value)) return value.replace(/[\da-f]/gu, '$&$&');
  const parts = /^rgb\(\s*([\d.]+%?)[\s,]+([\d.]+%?)[\s,]+([\d.]+%?)\s*\)$/u.exec(value);
  if (parts)
    return `#${parts
      .slice(1)
      .map((part) => (part.endsWith('%') ? Number.parseFloat(part) * 2.55 : Number(part)))
      .map((part) => Math.min(255, Math.round(part)).toString(16).padStart(2, '0'))
      .join('')}`;
  return (
    colours[value] ??
    refuse(`it has a colour that is not read here (“${text.slice(0, 20)}”): write it as #rrggbb`)
  );
}

/** A shape as path data; null for an element that is none, the empty text for one that shows nothing. */
function pathOf(name: string, { attributes }: XmlElement): string | null {
  const at = (key: string, otherwise = 0): number => number(attributes.get(key), otherwise);
  const text = (parts: readonly (string | number)[]): string =>
    parts.map((part) => (typeof part === 'number' ? numberText(part) : part)).join(' ');
  const arc = (rx: number, ry: number, x: number, y: number): (string | number)[] => [
    'A',
    rx,
    ry,
    0,
    0,
    1,
    x,
    y,
  ];
  switch (name) {
    case 'path': {
      return pathData(attributes.get('d') ?? '') ?? refuse(`it has a path that cannot be read: ${instead}`);
    }
    case 'rect': {
      const [x, y, width, height] = [at('x'), at('y'), at('width'), at('height')];
      if (width <= 0 || height <= 0) return '';
      const rx = Math.min(at('rx', at('ry')), width / 2),
        ry = Math.min(at('ry', at('rx')), height / 2);
      if (rx <= 0 || ry <= 0) return text(['M', x, y, 'H', x + width, 'V', y + height, 'H', x, 'Z']);
      return text([
        'M',
        x + rx,
        y,
        'H',
        x + width - rx,
        ...arc(rx, ry, x + width, y + ry),
        'V',
        y + height - ry,
        ...arc(rx, ry, x + width - rx, y + height),
        'H',
        x + rx,
        ...arc(rx, ry, x, y + height - ry),
        'V',
        y + ry,
        ...arc(rx, ry, x + rx, y),
        'Z',
      ]);
    }
    case 'circle':
    case 'ellipse': {
      const rx = name === 'circle' ? at('r') : at('rx'),
        ry = name === 'circle' ? at('r') : at('ry');
      if (rx <= 0 || ry <= 0) return '';
      const [x, y] = [at('cx'), at('cy')];
      return text(['M', x - rx, y, ...arc(rx, ry, x + rx, y), ...arc(rx, ry, x - rx, y), 'Z']);
    }
    case 'line':
      return text(['M', at('x1'), at('y1'), 'L', at('x2'), at('y2')]);
    case 'polyline':
    case 'polygon': {
      const points = (attributes.get('points') ?? '').split(/[\s,]+/u).filter((part) => part !== '');
      if (points.length < 4) return '';
      return `M ${points.map((part) => numberText(number(part, 0))).join(' ')}${name === 'polygon' ? ' Z' : ''}`;
    }
    default:
      return null;
  }
}

/** Numbers behind each command of path data. Source: W3C Scalable Vector Graphics 1.1, 8.3.9 (from memory). */
const numbersOf: Readonly<Record<string, number>> = {
  m: 2,
  l: 2,
  h: 1,
  v: 1,
  c: 6,
  s: 4,
  q: 4,
  t: 2,
  a: 7,
  z: 0,
};

/** Path data with each command and number by itself: programs write them together ("a1 1 0 01.5.5"). null: it is none. */
function pathData(text: string): string | null {
  const token = /\s*,?\s*([-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?)/iuy;
  const flag = /\s*,?\s*([01])/uy;
  const letter = /\s*([MLHVCSQTAZ])/iuy;
  const parts: string[] = [];
  let at = 0,
    command = '';
  const next = (pattern: RegExp): string | null => {
    pattern.lastIndex = at;
    const found = pattern.exec(text);
    if (found === null) return null;
    at = pattern.lastIndex;
    return found[1] ?? null;
  };
  while (at < text.length && text.slice(at).trim() !== '') {
    const named = next(letter);
    if (named !== null) command = named;
    else if (command === '' || command.toLowerCase() === 'z') return null;
    if (parts.length === 0 && command.toLowerCase() !== 'm') return null;
    parts.push(command);
    const count = numbersOf[command.toLowerCase()] ?? 0;
    for (let i = 0; i < count; i++) {
      const isFlag = count === 7 && (i === 3 || i === 4);
      const value = next(isFlag ? flag : token);
      if (value === null || !Number.isFinite(Number(value))) return null;
      parts.push(numberText(Number(value)));
    }
    // Further pairs behind a "move" are lines.
    if (command === 'M') command = 'L';
    if (command === 'm') command = 'l';
  }
  return parts.join(' ');
}

function times(a: Matrix, b: Matrix): Matrix {
  return [
    a[0] * b[0] + a[2] * b[1],
    a[1] * b[0] + a[3] * b[1],
    a[0] * b[2] + a[2] * b[3],
    a[1] * b[2] + a[3] * b[3],
    a[0] * b[4] + a[2] * b[5] + a[4],
    a[1] * b[4] + a[3] * b[5] + a[5],
  ];
}

function matrixOf(text: string): Matrix {
  let matrix = identity;
  const rest = text.replace(/(\w+)\s*\(([^)]*)\)\s*,?/gu, (_, name: string, list: string) => {
    const values = list
      .trim()
      .split(/[\s,]+/u)
      .map(Number);
    if (!values.every(Number.isFinite)) return refuse(`it has a transform that cannot be read: ${instead}`);
    const [a = 0, b, c] = values;
    const angle = (a * Math.PI) / 180;
    const turn: Matrix = [Math.cos(angle), Math.sin(angle), -Math.sin(angle), Math.cos(angle), 0, 0];
    const [d, e, f, g, h, i] = values;
    const step: Matrix | null =
      name === 'matrix' && values.length === 6
        ? [d ?? 1, e ?? 0, f ?? 0, g ?? 1, h ?? 0, i ?? 0]
        : name === 'translate'
          ? [1, 0, 0, 1, a, b ?? 0]
          : name === 'scale'
            ? [a, 0, 0, b ?? a, 0, 0]
            : name === 'rotate'
              ? times(times([1, 0, 0, 1, b ?? 0, c ?? 0], turn), [1, 0, 0, 1, -(b ?? 0), -(c ?? 0)])
              : name === 'skewX'
                ? [1, 0, Math.tan(angle), 1, 0, 0]
                : name === 'skewY'
                  ? [1, Math.tan(angle), 0, 1, 0, 0]
                  : null;
    if (step === null) return refuse(`it has a transform that cannot be read: ${instead}`);
    matrix = times(matrix, step);
    return '';
  });
  if (rest.trim() !== '') refuse(`it has a transform that cannot be read: ${instead}`);
  return matrix;
}
