#pragma once
// Look of the page: paper and ink, blueprint in the dark, black on white in print. Same colours as the drawing.

#include <string_view>

namespace cotter::serve {

inline constexpr std::string_view k_page_style = R"css(
:root{color-scheme:light dark;--paper:#F5F2E9;--ink:#17212B;--ink2:#4B5763;--rule:#B9BBB3}
@media (prefers-color-scheme:dark){:root{--paper:#0E2C50;--ink:#EAF1F8;--ink2:#AFC4DB;--rule:#3F6290}}
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%}
body{margin:0 auto;max-width:1328px;padding:16px 24px 24px;background:var(--paper);color:var(--ink);
  font:16px/24px "B612","DejaVu Sans",sans-serif;overflow-wrap:break-word}
h1,h2{margin:0;font-family:osifont,"B612","DejaVu Sans",sans-serif;font-weight:400}
h1{font-size:28px;line-height:36px}
h2{font-size:20px;line-height:28px}
p{margin:0}
a{color:inherit;text-underline-offset:3px}
a:focus-visible,.drawing:focus-visible{outline:2px solid var(--ink);outline-offset:3px}
header{padding-bottom:12px}
.quiet{color:var(--ink2)}
section{border-top:1px solid var(--ink);padding:12px 0 24px}
section.cautions,section.wrong{border-top-width:2px}
.cautions ul{margin:8px 0 0;padding-left:20px;columns:2;column-gap:48px}
.cautions li{break-inside:avoid;padding-bottom:4px}
.wrong h2 span{border-bottom:2px solid var(--ink)}
.wrong p{margin-top:8px}
.wrong ul{margin:8px 0 0;padding:0;list-style:none;max-width:75ch}
.wrong li{padding:8px 0 8px 24px;text-indent:-24px;border-top:1px solid var(--rule);overflow-wrap:anywhere}
.wrong li:first-child{border-top:0}
figure{margin:12px 0 0}
.drawing svg{display:block;width:100%;height:auto}
figcaption{padding-top:4px}
h3{margin:24px 0 4px;font:400 18px/24px osifont,"B612","DejaVu Sans",sans-serif}
.columns{margin-top:12px;max-width:120ch;font:14px/20px "DejaVu Sans Mono","Liberation Mono",ui-monospace,monospace}
.columns p{padding-left:calc(var(--c)*1ch);white-space:pre-wrap}
.columns .apart{margin-top:20px}
.columns h3+.apart{margin-top:0}
footer{border-top:2px solid var(--ink);display:flex;justify-content:flex-end}
dl{margin:0;display:flex;flex-wrap:wrap;border:solid var(--ink);border-width:0 2px 2px 2px}
dl div{padding:4px 16px 4px 12px;border-left:1px solid var(--ink)}
dl div:first-child{border-left:0}
dt{font:14px/20px osifont,"B612",sans-serif;color:var(--ink2)}
dd{margin:0}
figcaption a{display:inline-block;padding:12px 0;min-height:48px}
.files dd{margin:-12px 0 -4px}
.files a{display:inline-block;padding:12px 16px 12px 0;min-height:48px}
@media (max-width:700px){
  body{padding:12px 12px 16px}
  .cautions ul{columns:1}
  .drawing{overflow-x:auto}
  .drawing svg{width:140%}
  .columns{font:15px/21px "B612","DejaVu Sans",sans-serif}
  .columns p{padding-left:calc(var(--c)*.35ch)}
  .columns .apart{margin-top:14px}
  footer{display:block}
  dl{display:block}
  dl div,dl div:first-child{border-left:0;border-top:1px solid var(--ink)}
  dl div:first-child{border-top:0}
}
@media print{
  :root,.drawing .cotter-sheet{color-scheme:light;--paper:#FFFFFF;--part:#FFFFFF;--ink:#000000;--ink2:#333333;
    --rule:#888888;--wire:#0B568F;--hose:#9C420C;--mark:#FFFFFF;--markink:#000000;--sel:#EEEEEE}
  body{max-width:none;padding:0;font-size:10pt;line-height:14pt}
  .columns{font-size:7.5pt;line-height:10pt;max-width:none}
  h2,h3{break-after:avoid}
  section,figure{break-inside:avoid}
  section.plan{break-inside:auto}
  .files,figcaption{display:none}
}
)css";

}  // namespace cotter::serve
