// Unpacks plotly.js, keeps it out of a notebook's own module loader, and draws every chart on the page, now and later.
(function () {
  'use strict';
  // The set-up cell may be run again: what is loaded stays.
  if (window.tastingKitCharts) return;
  window.tastingKitCharts = true;

  var packed = '@plotly@';
  var plotly = null;
  var isWaiting = false;

  function unpack() {
    var characters = atob(packed);
    var bytes = new Uint8Array(characters.length);
    for (var i = 0; i < bytes.length; i++) bytes[i] = characters.charCodeAt(i);
    packed = null;
    return new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'))).text();
  }

  function run(source) {
    var before = window.Plotly;
    var script = document.createElement('script');
    // Nameless to AMD and CommonJS, which in a notebook would take plotly.js for themselves.
    script.textContent = '(function (define, module, exports) {' + source + '\n})();';
    document.head.appendChild(script);
    script.remove();
    plotly = window.Plotly;
    if (before) window.Plotly = before;
  }

  function isNarrow(figure) { return figure.clientWidth < 600; }

  // Colours come from the stylesheet at the figure, so that a chart follows its page from light to dark.
  function template(figure) {
    var style = getComputedStyle(figure);
    function colour(name) { return style.getPropertyValue('--tk-' + name).trim() || undefined; }
    function axis() {
      return {
        automargin: true, gridcolor: colour('line'), linecolor: colour('quiet'), tickcolor: colour('quiet'),
        zeroline: false, zerolinecolor: colour('quiet'), title: { standoff: 8 }
      };
    }
    return {
      layout: {
        font: { family: style.fontFamily, size: isNarrow(figure) ? 12 : 14, color: colour('ink') },
        paper_bgcolor: 'rgba(0,0,0,0)', plot_bgcolor: 'rgba(0,0,0,0)',
        margin: { l: 8, r: 12, t: 12, b: 8 },
        xaxis: axis(), yaxis: axis(),
        legend: { orientation: 'h', x: 0, xanchor: 'left', y: 1.02, yanchor: 'bottom' },
        hoverlabel: { bgcolor: colour('paper'), bordercolor: colour('quiet'), font: { color: colour('ink') }, align: 'left', namelength: -1 },
        hovermode: 'closest', dragmode: false
      }
    };
  }

  function draw(figure) {
    var plot = figure.querySelector('.tk-chart-plot');
    var words = plot.querySelector('.tk-chart-words');
    figure.dataset.state = 'drawing';
    new Promise(function (resolve) {
      var spec = JSON.parse(figure.querySelector('script[type="application/json"]').textContent);
      spec.layout.template = template(figure);
      spec.layout.autosize = true;
      plot.replaceChildren();
      resolve(plotly.newPlot(plot, spec.data, spec.layout, { displayModeBar: false, displaylogo: false }));
    }).then(function () {
      figure.dataset.state = 'drawn';
      follow(figure, plot);
    }).catch(function (error) {
      figure.dataset.state = 'failed';
      plot.replaceChildren(words);
      console.error('A chart could not be drawn: ' + error);
    });
  }

  function follow(figure, plot) {
    var width = plot.clientWidth;
    var wasNarrow = isNarrow(figure);
    new ResizeObserver(function () {
      if (plot.clientWidth > 0 && plot.clientWidth !== width) {
        width = plot.clientWidth;
        plotly.Plots.resize(plot).then(function () {
          // The size of type goes by the width: labels set for a desk would run into each other on a phone held upright again.
          if (wasNarrow !== isNarrow(figure)) {
            wasNarrow = !wasNarrow;
            return plotly.relayout(plot, { template: template(figure) });
          }
        });
      }
    }).observe(plot);
  }

  // One chart at a time, so that a long page stays responsive.
  function drawNext() {
    var figure = document.querySelector('figure.tk-chart:not([data-state])');
    if (!figure) { isWaiting = false; return; }
    draw(figure);
    setTimeout(drawNext, 0);
  }

  function look() {
    if (!plotly || isWaiting) return;
    isWaiting = true;
    setTimeout(drawNext, 0);
  }

  function recolour() {
    document.querySelectorAll('figure.tk-chart[data-state="drawn"]').forEach(function (figure) {
      plotly.relayout(figure.querySelector('.tk-chart-plot'), { template: template(figure) });
    });
  }

  unpack().then(run).then(function () {
    look();
    new MutationObserver(look).observe(document.documentElement, { childList: true, subtree: true });
    matchMedia('(prefers-color-scheme: dark)').addEventListener('change', recolour);
    new MutationObserver(recolour).observe(document.body, { attributes: true, attributeFilter: ['data-jp-theme-light'] });
  }).catch(function (error) {
    console.error('plotly.js could not be started; charts are shown in words. ' + error);
  });
})();
