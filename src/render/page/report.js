// Makes the report's pictures answer to the hand. The page is whole without it: the same pictures stand
// there as SVG, and each one's words and tables beside it. Colours come from the style sheet.
(function () {
  "use strict";
  var data = JSON.parse(document.getElementById("pictures").textContent);
  var dark = window.matchMedia("(prefers-color-scheme: dark)");
  var SILENCE = 21 * 24 * 3600 * 1000; // as in the still pictures
  var STYLES = 4;
  var DASHES = [null, [7, 3], [2, 3], [10, 3, 2, 3]];
  var DAYS = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"];
  var MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

  function color(name) {
    return getComputedStyle(document.documentElement).getPropertyValue("--" + name).trim();
  }
  function two(number) { return (number < 10 ? "0" : "") + number; }
  function moment(ms) {
    var at = new Date(ms);
    return DAYS[at.getUTCDay()] + " " + at.getUTCDate() + " " + MONTHS[at.getUTCMonth()] + " " +
      two(at.getUTCHours()) + ":" + two(at.getUTCMinutes());
  }
  function tenth(number) { return String(Math.round(number * 10) / 10); }
  function add(parent, tag, text, name) {
    var made = document.createElement(tag);
    if (text) made.textContent = text;
    if (name) made.className = name;
    parent.appendChild(made);
    return made;
  }
  // The place in a figure for the moving picture; its still one is kept for paper.
  function place(id) {
    var figure = document.getElementById(id);
    figure.classList.add("moves");
    return figure.querySelector(".live");
  }

  // Rows of [moment, [least, mean, greatest] or null a line]; NaN opens a line at a long silence.
  function rows_of(plot) {
    var rows = {};
    function row(ms) {
      if (!rows[ms]) rows[ms] = [new Date(ms)].concat(plot.lines.map(function () { return null; }));
      return rows[ms];
    }
    plot.lines.forEach(function (line, i) {
      var before = null;
      line.points.forEach(function (point) {
        if (before !== null && point[0] - before > SILENCE) row(before + 1)[i + 1] = [NaN, NaN, NaN];
        row(point[0])[i + 1] = point.slice(1);
        before = point[0];
      });
    });
    return Object.keys(rows).map(Number).sort(function (a, b) { return a - b; })
      .map(function (ms) { return rows[ms]; });
  }

  function colors(count) {
    var all = [];
    for (var i = 0; i < count; ++i) all.push(color("line-" + (i % STYLES)));
    return all;
  }

  function draw_plot(plot, number) {
    var host = place(plot.id);
    var tools = add(host, "div", "", "tools");
    var near = add(tools, "button", "nearer"), far = add(tools, "button", "wider");
    var whole = add(tools, "button", "all of it");
    [near, far, whole].forEach(function (one) { one.type = "button"; });
    var readout = add(host, "p", "", "readout");
    // Said once; a blank keeps the line's height.
    var hint = number > 0 ? "\u00a0" : "Drag across a stretch to see it nearer; double-click for all of it.";
    readout.textContent = hint;
    add(host, "p", plot.unit, "key");
    var canvas = add(host, "div", "", "canvas");
    var names = plot.lines.map(function (one) { return one.name || "where not said"; });
    var low = Infinity, high = -Infinity, series = {};
    plot.lines.forEach(function (line, i) {
      line.points.forEach(function (p) { low = Math.min(low, p[1]); high = Math.max(high, p[3]); });
      series[names[i]] = { strokePattern: DASHES[i % STYLES] };
    });
    plot.limits.forEach(function (one) {
      low = Math.min(low, one.value);
      high = Math.max(high, one.value);
    });
    var room = (high - low || 1) * 0.06;
    function underlay(context, area, graph) {
      context.save();
      context.lineWidth = 1.5;
      context.font = "12px " + getComputedStyle(document.body).fontFamily;
      context.strokeStyle = context.fillStyle = color("limit");
      plot.limits.forEach(function (one) {
        var y = graph.toDomYCoord(one.value);
        if (y < area.y || y > area.y + area.h) return;
        context.setLineDash([8, 5]);
        context.beginPath();
        context.moveTo(area.x, y);
        context.lineTo(area.x + area.w, y);
        context.stroke();
        context.textAlign = "right";
        context.fillText(one.says, area.x + area.w - 4, y - 4);
      });
      context.fillStyle = color("ink");
      plot.marks.forEach(function (one) {
        var x = graph.toDomXCoord(one.at), y = area.y + area.h;
        if (x < area.x || x > area.x + area.w) return;
        context.beginPath();
        context.moveTo(x, y - 9);
        context.lineTo(x - 4, y - 1);
        context.lineTo(x + 4, y - 1);
        context.fill();
      });
      context.restore();
    }
    function say(event, x, points) {
      var parts = points.filter(function (one) { return !isNaN(one.yval); }).map(function (one) {
        return one.name + " " + tenth(one.yval) + " " + plot.unit;
      });
      var day = Math.floor(x / 864e5);
      plot.marks.forEach(function (one) {
        if (Math.floor(one.at / 864e5) === day) parts.push(one.says);
      });
      readout.textContent = moment(x) + ": " + parts.join(", ");
    }
    var graph = new Dygraph(canvas, rows_of(plot), {
      labels: ["moment"].concat(names),
      labelsUTC: true,
      customBars: true,
      connectSeparatedPoints: true,
      drawPoints: rows_of(plot).length < 150,
      pointSize: 2,
      strokeWidth: 1.8,
      fillAlpha: 0.18,
      series: series,
      colors: colors(names.length),
      legend: "never",
      gridLineColor: color("grid"),
      axisLineColor: color("grid"),
      valueRange: [low - room, high + room],
      axes: { x: { axisLabelWidth: 64 }, y: { axisLabelWidth: 40 } },
      underlayCallback: underlay,
      highlightCallback: say,
      unhighlightCallback: function () { readout.textContent = hint; }
    });
    function zoom(times) {
      var range = graph.xAxisRange(), middle = (range[0] + range[1]) / 2;
      var half = (range[1] - range[0]) / 2 * times, ends = graph.xAxisExtremes();
      graph.updateOptions({
        dateWindow: [Math.max(ends[0], middle - half), Math.min(ends[1], middle + half)]
      });
    }
    near.addEventListener("click", function () { zoom(0.5); });
    far.addEventListener("click", function () { zoom(2); });
    whole.addEventListener("click", function () { graph.resetZoom(); });
    // Which line is which, in words and strokes.
    if (names.length > 1 || plot.marks.length) {
      var key = add(host, "p", "", "key");
      names.forEach(function (name, i) {
        var svg = d3.select(add(key, "span", "")).append("svg").attr("class", "swatch")
          .attr("viewBox", "0 0 28 10").attr("aria-hidden", "true");
        svg.append("line").attr("class", "line-" + (i % STYLES))
          .attr("x1", 0).attr("x2", 28).attr("y1", 5).attr("y2", 5);
        add(key, "span", name);
      });
      if (plot.marks.length) add(key, "span", "▲ done that day");
    }
    return function () {
      graph.updateOptions({ colors: colors(names.length), gridLineColor: color("grid"),
        axisLineColor: color("grid") });
    };
  }

  function draw_bars(bars, number) {
    var host = place(bars.id);
    var readout = add(host, "p", "", "readout");
    var hint = number > 0 ? "\u00a0" : "Point at a bar for its month.";
    readout.textContent = hint;
    var width = 420, height = 190, left = 44, top = 10, bottom = 28;
    var x = d3.scaleBand().domain(bars.bars.map(function (one) { return one.month; }))
      .range([left, width]).padding(0.25);
    var y = d3.scaleLinear()
      .domain([0, d3.max(bars.bars, function (one) { return one.value; }) || 1]).nice()
      .range([height - bottom, top]);
    var svg = d3.select(host).append("svg").attr("class", "bars")
      .attr("viewBox", "0 0 " + width + " " + height).attr("aria-hidden", "true");
    var every = Math.ceil(bars.bars.length / 12);
    svg.append("g").attr("class", "axis").attr("transform", "translate(0," + (height - bottom) + ")")
      .call(d3.axisBottom(x).tickSizeOuter(0)
        .tickValues(x.domain().filter(function (_, i) { return i % every === 0; }))
        .tickFormat(function (month) { return month.slice(0, 3); }));
    svg.append("g").attr("class", "axis").attr("transform", "translate(" + left + ",0)")
      .call(d3.axisLeft(y).ticks(4).tickSizeOuter(0));
    svg.selectAll("rect").data(bars.bars).enter().append("rect").attr("class", "bar")
      .attr("x", function (one) { return x(one.month); })
      .attr("width", x.bandwidth())
      .attr("y", function (one) { return y(one.value); })
      .attr("height", function (one) { return y(0) - y(one.value); })
      .on("mouseenter", function (one) { readout.textContent = one.month + ": " + one.shown; })
      .on("mouseleave", function () { readout.textContent = hint; });
  }

  // A picture is drawn when it comes near the window: a year has a hundred of them.
  function when_near(id, draw) {
    var watch = new IntersectionObserver(function (seen) {
      if (!seen.some(function (one) { return one.isIntersecting; })) return;
      watch.disconnect();
      draw();
    }, { rootMargin: "100% 0px" });
    watch.observe(document.getElementById(id));
  }
  var recolor = [];
  data.plots.forEach(function (plot, number) {
    when_near(plot.id, function () { recolor.push(draw_plot(plot, number)); });
  });
  data.bars.forEach(function (bars, number) {
    when_near(bars.id, function () { draw_bars(bars, number); });
  });
  dark.addEventListener("change", function () {
    recolor.forEach(function (one) { one(); });
  });
})();
