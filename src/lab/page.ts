/**
 * The views in an ordinary page, without Jupyter: every `<script type="application/json" data-cocked-hat="MIME type">`
 * gets its view right behind it. What stood there for readers without scripts (`data-cocked-hat-still`) goes.
 */
import {
  loadFormulas,
  loadGrid,
  loadPlotly,
  mountView,
  type Services,
  type ViewHandle,
} from './render/index.js';

const services: Services = {
  t: (text) => text,
  plotly: loadPlotly,
  formulas: loadFormulas,
  grid: loadGrid,
};

function dataOf(script: Element): unknown {
  try {
    return JSON.parse(script.textContent ?? '');
  } catch {
    return script.textContent;
  }
}

/** Shows all views of the page; returns their handles in order. */
export async function mountAll(root: ParentNode = document): Promise<ViewHandle[]> {
  const scripts = [...root.querySelectorAll('script[data-cocked-hat]')];
  return Promise.all(
    scripts.map((script) => {
      const host = document.createElement('div');
      const still = script.nextElementSibling;
      if (still?.hasAttribute('data-cocked-hat-still')) still.remove();
      script.after(host);
      return mountView(
        host,
        script.getAttribute('data-cocked-hat') ?? '',
        dataOf(script),
        services,
      );
    }),
  );
}

(globalThis as Record<string, unknown>)['cockedHatViews'] = mountAll();
