#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "model/danger.h"

// The words by which a danger is known in what a person typed: read by danger.cpp alone.
namespace model {

// Two groups of words, of each of which one must stand there, near the other; an empty one asks for
// nothing. A word of several is written with hyphens.
struct Sign {
  Danger danger;
  std::string_view one, other;
  std::size_t near = 5;  // words from the one to the other
};

constexpr std::string_view kSwollen =
    "bulge bulges bulged bulging swell swells swelled swelling swollen domed ballooned ballooning "
    "bloated puffy puffed";
constexpr std::string_view kBirds =
    "birds hens chickens pullets ducks geese turkeys chicks flock roosters";

constexpr std::array kSigns{
    Sign{Danger::kGasSmell,
         "smell smells smelled smelt smelling reek reeks stink stinks whiff sniff odor odour pong "
         "niff",
         "gas biogas sulfide rotten-egg rotten-eggs"},
    Sign{Danger::kGasSmell, "gas biogas",
         "leak leaks leaked leaking escape escapes escaping hiss hisses hissing"},
    Sign{Danger::kGasSmell, "rotten-egg rotten-eggs", ""},
    Sign{Danger::kGasSmell,
         "smell smells smelled smelt smelling reek reeks stink stinks whiff sniff odor odour pong "
         "niff",
         "of-eggs of-egg like-eggs like-egg eggy bad-eggs sulfur sulphur sulfurous sulphurous "
         "sulfury sulphury",
         3},
    Sign{Danger::kGasSmell, "bubble bubbles bubbling bubbled",
         "soap soapy joint fitting valve seam flange hose connector clamp", 6},
    Sign{Danger::kGasSmell, "hiss hisses hissing",
         "valve hose pipe line joint holder dome seam bag"},
    Sign{Danger::kPersonDown,
         "fainted faint collapsed unconscious dizzy passed-out blacked-out headache "
         "climbed-in climbed-into climb-in climbs-in climbing-in climbed-inside crawled-in "
         "crawled-into went-inside got-inside climbed-down-into leaned-in leaned-over leant-in "
         "leant-over fell-in-it fell-into-it fell-into-the-tank fell-in-the-tank "
         "fell-into-the-digester fell-into-the-drum fell-into-the-pit fell-in-the-pit",
         ""},
    // Biogas burned where people breathe, or the alarm for what it makes.
    Sign{Danger::kPoisonAir, "carbon-monoxide monoxide co-alarm co-detector", ""},
    Sign{Danger::kPoisonAir, "heater stove burner lamp flame ring cooker fridge",
         "shed indoors inside house tent greenhouse glasshouse cabin garage barn bedroom kitchen "
         "caravan overnight all-night"},
    Sign{Danger::kFlameOut, "flame burner ring pilot stove heater cooker lamp",
         "went-out goes-out gone-out blew-out blown-out go-out died-out dies-out relit re-lit "
         "relight relighting lit-again lit-it-again",
         6},
    Sign{Danger::kInEye, "eye eyes face skin hand hands arm arms mouth",
         "lime lye acid ash ashes bleach caustic chlorine quicklime spray sprayed splash splashed "
         "squirted burn burns burning burned stung",
         6},
    Sign{Danger::kPeopleIll,
         "sick ill diarrhea diarrhoea the-runs vomiting vomited threw-up throwing-up puking cramps "
         "poorly fever food-poisoning",
         "we i me us both kid kids child children boy girl son daughter baby everyone everybody "
         "people family guest guests visitor visitors student students volunteer volunteers him "
         "her drank drink drinking wife husband partner",
         7},
    Sign{Danger::kPersonDown,
         "kid kids child children boy girl son daughter man woman he she they somebody someone",
         "inside-the-tank in-the-tank inside-the-barrel in-the-barrel inside-the-drum in-the-drum "
         "inside-the-digester in-the-digester in-the-pit inside-it"},
    Sign{Danger::kFallen, "fell fallen falls slipped slid",
         "ladder roof skylight glass steps tree pole", 4},
    Sign{Danger::kFlameOnIce,
         "torch blowtorch blowlamp blow-torch blow-lamp flame lighter heat-gun burner",
         "frozen froze freeze frost ice iced icy thaw thawed thawing defrost"},
    Sign{Danger::kBirdsDying, "dead dying died dies dropped", kBirds},
    Sign{Danger::kBirdsDying,
         "bird-flu avian-flu avian-influenza fowl-plague hpai h5n1 newcastle-disease", ""},
    // Signs of flu and the like, before any is dead.
    Sign{Danger::kBirdsDying,
         "gasping gasps gasp purple-comb purple-combs blue-comb blue-combs swollen-head "
         "swollen-heads swollen-face swollen-faces swollen-comb swollen-combs swollen-wattles "
         "twisted-neck twisted-necks keeling-over keeled-over",
         ""},
    Sign{Danger::kBirdsDying, "purple blue dark swollen", "comb combs wattle wattles", 3},
    Sign{Danger::kBirdsDying, "wheezing wheezes wheeze green-poo green-droppings eyes-shut",
         "hen hens layer layers bird birds pullet pullets chicken chickens flock several two three "
         "four five all",
         6},
    Sign{Danger::kSomeDead, "two three four five six several 2 3 4 5 6",
         "cold-on-the-floor stone-cold stiff-on-the-floor", 3},
    Sign{Danger::kOneDead,
         "didn't-wake didnt-wake never-woke found-cold stone-cold stiff-on-the-floor", ""},
    Sign{Danger::kSomeDead,
         "two three four five six seven eight nine ten eleven twelve dozen several many more half "
         "all most 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20",
         "dead died dying", 2},
    Sign{Danger::kOneDead, "hen bird chicken pullet rooster cockerel duck goose one 1",
         "dead died dying", 4},
    Sign{
        Danger::kMedicine,
        "wormer wormed worming dewormer dewormed deworming antibiotic antibiotics medicine "
        "medicated medication ivermectin fenbendazole flubendazole piperazine amprolium "
        "oxytetracycline tylosin coccidiostat permethrin mite-powder vet-drug sulfa sulfonamide "
        "sulfadimethoxine sulfamethazine toltrazuril levamisole albendazole enrofloxacin corid "
        "baytril safeguard-paste panacur valbazen wazine terramycin duramycin tylan sulmet eprinex "
        "ivomec amoxicillin penicillin",
        ""},
    Sign{Danger::kBareWire, "burning-plastic burnt-plastic hot-plastic melting-plastic",
         "inverter controller wire wires cable box plug socket panel panels fuse"},
    Sign{Danger::kBadBattery, "battery batteries battry batery", kSwollen},
    Sign{Danger::kBadBattery, "battery batteries battry batery",
         "smell smells smelled smelling stinks hot smoke smokes smoking hiss hisses hissing leak "
         "leaks leaking leaked spilled spilt acid fire burning boiling boils frozen froze"},
    Sign{Danger::kBareWire,
         "bare-wire bare-wires bare-cable exposed-wire exposed-wires frayed-wire frayed-cable "
         "sparks sparking arcing electric-shock got-a-shock shocked zapped tingle tingles tingled "
         "chewed-cable "
         "chewed-wire",
         ""},
    Sign{Danger::kBareWire, "melted melting scorched scorch scorching charred browned burnt singed",
         "connector connectors plug plugs socket wire wires wiring cable cables fuse inverter "
         "controller terminal terminals junction-box combiner"},
    Sign{Danger::kSmoke,
         "smoke smokes smoking smoulders smouldering smolders smoldering ember embers glowing "
         "on-fire caught-fire flames burnt-smell smells-burnt smell-of-burning",
         ""},
    Sign{Danger::kBulging, kSwollen,
         "lid drum barrel top holder dome bag cover jerrycan jug bottle container"},
    Sign{Danger::kBulging, "tight taut rock-hard", "bag holder dome"},
    Sign{Danger::kDeadInWater, "dead drowned carcass floating rotting rotten",
         "pigeon bird rat rats mouse mice squirrel squirel critter something frog lizard snake "
         "animal animals cat possum "
         "opossum raccoon starling sparrow swallow"},
    Sign{Danger::kLidOff, "lid hatch manhole screen cover",
         "off open missing broken cracked gone blown loose lost unlocked", 3},
    Sign{Danger::kCaustic,
         "lye quicklime quick-lime burnt-lime caustic-soda drain-cleaner pool-acid muriatic", ""},
    Sign{Danger::kCaustic, "bleach bleached chlorine",
         "vinegar acid ammonia urine ferment toilet-cleaner peroxide", 8},
    Sign{Danger::kHotQuench, "water hose hosed bucket doused",
         "hot-kiln hot-retort hot-steel hot-drum closed-kiln closed-retort red-hot glowing-kiln"},
    Sign{Danger::kFuelDrum, "oil fuel gasoline petrol diesel solvent galvanized galvanised",
         "drum barrel can kiln", 2},
    Sign{Danger::kCharIndoors, "char biochar charcoal coals embers kiln",
         "indoors garage shed barn house tent car cellar basement kitchen cabin", 6},
    Sign{Danger::kFoulFuel,
         "painted varnished stained treated pressure-treated creosoted tarred glued laminated",
         "wood door doors board boards plank planks lumber timber offcut offcuts scrap scraps post "
         "posts fence furniture window frame frames siding deck decking",
         2},
    Sign{
        Danger::kFoulFuel,
        "railway-sleeper railway-sleepers railroad-tie railroad-ties railway-tie railway-ties "
        "sleepers plywood chipboard chip-board particleboard osb mdf melamine plastic plastics pvc "
        "tires tyres carpet polystyrene styrofoam oleander decking deck-boards pallets pallet",
        "burn burned burnt burning lit light lighting fire fed fuel loaded stacked kiln in on of "
        "and",
        6},
    Sign{Danger::kRawOnBed,
         "spread put dug dig worked forked mixed poured watered watering gave fed mulched mulch "
         "tipped dumped raked side-dressed dressed sprayed",
         "manure dung droppings poo poop muck slurry dog-mess cat-mess dog-poo cat-poo humanure "
         "night-soil sewage"},
    Sign{Danger::kRawOnBed, "dog dogs cat cats",
         "mess poo poop shat pooped pooed crapped turd turds faeces feces", 4},
    Sign{
        Danger::kSprayed,
        "sprayed spraying herbicide herbicides weedkiller weed-killer weed-and-feed clopyralid "
        "aminopyralid picloram 2-4-d broadleaf-killer grazon forefront milestone",
        "hay straw grass clippings field fields pasture manure bedding lawn thistles thistle docks "
        "farmer neighbour neighbor",
        8},
    Sign{Danger::kRawOnBed, "cat cats dog dogs", "litter-tray litter-box toilet", 8},
    Sign{Danger::kSprayed, "cupped cupping curled curling twisted twisting",
         "leaf leaves tip tips shoots peas beans tomatoes growth stems", 3},
    Sign{Danger::kAmmoniaAir, "ammonia",
         "smell smells smelled strong stings sting stinging eyes reeks air house coop cough "
         "coughing"},
};

// Taken out first: what is harmless, though its words are not.
constexpr std::array<std::string_view, 26> kHarmless{
    "gas stove",        "gas meter",      "gas station",    "gas bottle",   "smoke break",
    "smoke alarm",      "smoke detector", "wildfire smoke", "smoke hood",   "natural gas bill",
    "smoking shed",     "pilot flame",    "dead leaves",    "dead plants",  "dead heads",
    "dead wood",        "eye on",         "eyes on",        "keep an eye",  "aged manure",
    "composted manure", "rotted manure",  "no spray",       "alarm tested", "alarm test",
    "burner cleaned"};

constexpr std::string_view kFoulFuels =
    "plastic plastics pvc vinyl polythene polyethylene polypropylene polystyrene styrofoam tarp "
    "tarps tarpaulin nylon polyester carpet tire tires tyre tyres rubber foam paint painted "
    "varnish "
    "varnished stained lacquered treated creosote creosoted railroad-tie railroad-ties railway-tie "
    "railway-ties railway-sleeper railway-sleepers sleepers cca pallet pallets plywood osb mdf "
    "particleboard particle-board chipboard chip-board fiberboard fibreboard hardboard melamine "
    "laminate laminated glued decking oleander poison-oak poison-ivy poison-sumac poison-hemlock "
    "roofing linoleum trash garbage rubbish";
// Said with it, they make it plain wood.
constexpr std::string_view kCleanFuels =
    "heat-treated ht stamped-ht untreated unpainted unvarnished bare-wood";

}  // namespace model
