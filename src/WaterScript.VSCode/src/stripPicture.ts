// The small picture beside a line, apart from the editor, so that it can be tested by itself.
export type StripColours = 'light' | 'dark' | 'contrast-light' | 'contrast-dark';

export interface StripLook {
  width: number;
  height: number;
  isPale: boolean;
  colours: StripColours;
}

interface Made {
  runs: [number, number][];
  isComb: boolean;
}

interface Scale {
  from: number;
  until: number;
}

/** A run is never thinner than this, so that it can be seen. */
const least = 2;

const inks = {
  'light': { water: '#17607f', rule: '#d3d8dc' },
  'dark': { water: '#6db8d8', rule: '#323b41' },
  'contrast-light': { water: '#000000', rule: '#000000' },
  'contrast-dark': { water: '#ffffff', rule: '#ffffff' },
};

export function stripSvg(made: Made, scale: Scale, look: StripLook): string {
  const { water, rule } = inks[look.colours];
  const isOutlined = look.colours.startsWith('contrast');
  const span = Math.max(1, scale.until - scale.from);
  const at = (second: number) => ((Math.min(Math.max(second, scale.from), scale.until) - scale.from) / span) * look.width;
  const bars = made.runs.map(([from, until]) => {
    const length = Math.max(least, at(until) - at(from));
    const left = Math.min(at(from), look.width - length);
    const paint = isOutlined ? `fill="none" stroke="${water}"` : `fill="${water}"${made.isComb ? ' fill-opacity=".45"' : ''}`;
    return `<rect x="${left.toFixed(1)}" y="1.5" width="${length.toFixed(1)}" height="${look.height - 4}" ${paint}/>`;
  });
  const opacity = look.isPale ? ' opacity=".4"' : '';
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${look.width}" height="${look.height}"${opacity}>`
    + `<path d="M0 ${look.height - 1.5}H${look.width}" stroke="${rule}"/>${bars.join('')}</svg>`;
}
