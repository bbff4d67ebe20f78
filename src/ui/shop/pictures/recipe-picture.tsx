/** A recipe as what will lie in the form: its layers to scale, wood in them, seal and coats as thin as they are. */
import { createMemo, createUniqueId, For, Show, type JSX } from 'solid-js';
import type { PieceSize, Recipe, Shop } from '../../../engine/shop/index.ts';
import { measureText } from '../../fields/index.ts';
import { recipeStack, type Slab } from '../model/recipe-stack.ts';

const WIDTH = 260;
const HEIGHT = 150;
const LEFT = 8;
const TOP = 8;

const slabName = (slab: Slab): string => {
  switch (slab.kind) {
    case 'layer':
      return `Layer ${slab.number}`;
    case 'seal':
      return 'Seal';
    case 'top-coat':
      return `Coat ${slab.number}`;
    case 'bottom-coat':
      return `Coat ${slab.number}, bottom`;
  }
};

export const RecipePicture = (props: {
  readonly recipe: Recipe;
  readonly shop: Shop;
  readonly size?: PieceSize;
}): JSX.Element => {
  const id = createUniqueId();
  const stack = createMemo(() => recipeStack(props.recipe, HEIGHT, props.size));
  const resinName = (resin: string): string =>
    props.shop.resins.find((one) => one.id === resin)?.name ?? resin;
  const depth = (slab: Slab): string =>
    Number.isFinite(slab.depthMm)
      ? slab.depthMm < 1
        ? `${Math.round(slab.depthMm * 1000) / 1000} mm`
        : measureText(slab.depthMm, 'depth', props.shop.units)
      : 'by volume';
  return (
    <figure class="stack">
      <svg viewBox={`0 0 ${WIDTH + 2 * LEFT} ${HEIGHT + 2 * TOP}`} aria-hidden="true">
        <defs>
          <pattern id={`${id}-grain`} width="46" height="9" patternUnits="userSpaceOnUse">
            <rect class="grain-ground" width="46" height="9" />
            <path class="grain-line" d="M0 3c12-2 24 2 46 0M0 7c16 2 30-2 46 0" />
          </pattern>
        </defs>
        <For each={stack().slabs}>
          {(slab) => (
            <g transform={`translate(${LEFT} ${TOP + slab.top})`}>
              <rect
                class={`slab slab-${slab.kind}`}
                classList={{ 'slab-even': slab.number % 2 === 0 }}
                width={WIDTH}
                height={slab.height}
              />
              <For each={woodBars(slab)}>
                {([x, width]) => (
                  <rect
                    fill={`url(#${id}-grain)`}
                    x={x}
                    width={width}
                    height={Math.max(0, slab.height - 1)}
                  />
                )}
              </For>
              <rect class="slab-edge" width={WIDTH} height={slab.height} />
            </g>
          )}
        </For>
        <path
          class="stack-form"
          d={`M3 ${TOP + HEIGHT * 0.2}V${TOP + HEIGHT + 4}H${WIDTH + 2 * LEFT - 3}V${TOP + HEIGHT * 0.2}`}
        />
      </svg>
      <ol class="stack-list" reversed>
        <For each={[...stack().slabs].reverse()}>
          {(slab) => (
            <li>
              <strong>{slabName(slab)}</strong> {depth(slab)}, {resinName(slab.resin)}
              <Show when={slab.woodShare > 0}>, {Math.round(slab.woodShare * 100)} % wood</Show>
              <Show when={slab.tint}>{(tint) => <>, {tint()}</>}</Show>
              <Show when={slab.thickened}>
                <small> (drawn thicker)</small>
              </Show>
            </li>
          )}
        </For>
      </ol>
    </figure>
  );
};

/** Wood as two bars that take their share of the slab's width. */
const woodBars = (slab: Slab): readonly (readonly [number, number])[] => {
  if (slab.woodShare <= 0) return [];
  const each = (slab.woodShare * WIDTH) / 2;
  const gap = (WIDTH - 2 * each) / 3;
  return [
    [gap, each],
    [2 * gap + each, each],
  ];
};
