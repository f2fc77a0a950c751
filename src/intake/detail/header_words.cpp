#include "intake/detail/header_words.h"

#include <algorithm>
#include <array>
#include <vector>

#include "intake/detail/cells.h"

namespace redd::intake::detail {
namespace {

using records::Count;
using records::Quantity;

std::vector<std::string> words_of(std::string_view header) {
  std::vector<std::string> words;
  const std::string key = plain_key(header);
  for (std::size_t from = 0; from < key.size();) {
    const std::size_t end = std::min(key.find('_', from), key.size());
    if (end > from) words.push_back(key.substr(from, end - from));
    from = end + 1;
  }
  return words;
}

template <std::size_t N>
bool among(std::string_view word, const std::array<std::string_view, N>& words) {
  return std::ranges::find(words, word) != words.end();
}

constexpr std::array<std::string_view, 38> say_nothing{
    "level", "levels", "reading", "readings", "result", "results", "test", "tests", "measured", "water", "tank", "weekly", "ppm", "mg", "l", "n", "as", "in", "of", "the", "value",
    "nivel", "niveles", "lectura", "prueba", "resultado", "agua", "tanque", "acuario", "semanal", "de", "del", "la", "el", "en", "como", "valor", "medida"};

struct Word {
  std::string_view words;
  Quantity quantity;
};
constexpr std::array quantities{
    Word{"ammonia", Quantity::total_ammonia}, Word{"total_ammonia", Quantity::total_ammonia}, Word{"tan", Quantity::total_ammonia}, Word{"ammonium", Quantity::total_ammonia},
    Word{"ammonia_ammonium", Quantity::total_ammonia}, Word{"ammonia_nitrogen", Quantity::total_ammonia}, Word{"nh3", Quantity::total_ammonia}, Word{"nh4", Quantity::total_ammonia}, Word{"nh3_nh4", Quantity::total_ammonia},
    Word{"amoniaco", Quantity::total_ammonia}, Word{"amonio", Quantity::total_ammonia}, Word{"amoniaco_total", Quantity::total_ammonia}, Word{"amonio_total", Quantity::total_ammonia},
    Word{"nitrogeno_amoniacal", Quantity::total_ammonia}, Word{"nitrite", Quantity::nitrite}, Word{"nitrites", Quantity::nitrite}, Word{"no2", Quantity::nitrite}, Word{"nitrite_no2", Quantity::nitrite}, Word{"nitrito", Quantity::nitrite}, Word{"nitritos", Quantity::nitrite},
    Word{"nitrate", Quantity::nitrate}, Word{"nitrates", Quantity::nitrate}, Word{"no3", Quantity::nitrate}, Word{"nitrate_no3", Quantity::nitrate}, Word{"nitrato", Quantity::nitrate}, Word{"nitratos", Quantity::nitrate},
    Word{"ph", Quantity::ph}, Word{"acidity_ph", Quantity::ph}, Word{"kh", Quantity::alkalinity}, Word{"dkh", Quantity::alkalinity}, Word{"alkalinity", Quantity::alkalinity}, Word{"total_alkalinity", Quantity::alkalinity},
    Word{"carbonate_hardness", Quantity::alkalinity}, Word{"alcalinidad", Quantity::alkalinity}, Word{"alcalinidad_total", Quantity::alkalinity}, Word{"dureza_carbonatos", Quantity::alkalinity},
    Word{"gh", Quantity::hardness}, Word{"dgh", Quantity::hardness}, Word{"hardness", Quantity::hardness}, Word{"general_hardness", Quantity::hardness}, Word{"total_hardness", Quantity::hardness},
    Word{"dureza", Quantity::hardness}, Word{"dureza_general", Quantity::hardness}, Word{"dureza_total", Quantity::hardness}, Word{"oxygen", Quantity::oxygen}, Word{"dissolved_oxygen", Quantity::oxygen}, Word{"do", Quantity::oxygen},
    Word{"oxigeno", Quantity::oxygen}, Word{"oxigeno_disuelto", Quantity::oxygen}, Word{"chlorine", Quantity::chlorine}, Word{"total_chlorine", Quantity::chlorine}, Word{"cloro", Quantity::chlorine}, Word{"cloro_total", Quantity::chlorine},
    Word{"chloride", Quantity::chloride}, Word{"cloruro", Quantity::chloride}, Word{"cloruros", Quantity::chloride}};

constexpr std::array<std::string_view, 4> temperature_words{"temp", "temperature", "temperatura", "temps"};
constexpr std::array<std::string_view, 12> beside_temperature{"c", "f", "water", "tank", "agua", "tanque", "acuario", "del", "de", "la", "celsius", "fahrenheit"};
constexpr std::array<std::string_view, 13> note_words{"note", "notes", "remark", "remarks", "comment", "comments", "observations", "nota", "notas", "observacion", "observaciones", "comentario", "comentarios"};
constexpr std::array<std::string_view, 6> team_words{"team", "group", "table", "equipo", "grupo", "mesa"};
constexpr std::array<std::string_view, 13> date_words{"date", "dates", "time", "datetime", "timestamp", "day", "at", "when", "fecha", "fechas", "dia", "hora", "cuando"};
constexpr std::array<std::string_view, 18> dead_words{"dead", "deaths", "death", "died", "mortality", "mortalities", "morts", "losses", "lost", "muertos", "muertas", "muertes", "muerto", "mortalidad", "mortandad", "bajas", "perdidas", "murieron"};
constexpr std::array<std::string_view, 7> egg_words{"egg", "eggs", "huevo", "huevos", "ova", "ovas", "embryos"};
constexpr std::array<std::string_view, 3> alevin_words{"alevin", "alevins", "saco"};
constexpr std::array<std::string_view, 4> fry_words{"fry", "fingerlings", "jaramugo", "jaramugos"};
constexpr std::array<std::string_view, 5> alive_words{"alive", "living", "vivos", "vivas", "remaining"};
constexpr std::array<std::string_view, 4> hatched_words{"hatched", "eclosionados", "eclosionadas", "nacidos"};
constexpr std::array<std::string_view, 8> total_words{"total", "cumulative", "running", "far", "accumulated", "acumulado", "acumulados", "acumuladas"};

template <std::size_t N>
bool any_of(const std::vector<std::string>& words, const std::array<std::string_view, N>& list) {
  return std::ranges::any_of(words, [&](const std::string& word) { return among(word, list); });
}

}  // namespace

std::string core_words(std::string_view header) {
  std::string core;
  for (const std::string& word : words_of(header))
    if (!among(word, say_nothing)) core += (core.empty() ? "" : "_") + word;
  return core;
}

std::optional<Quantity> quantity_named(std::string_view header) {
  // Brackets and what follows a comma give the unit; the words before them the name.
  for (const std::string& name : {plain_key(without_unit(header)), plain_key(header), core_words(without_unit(header)), core_words(header)})
    for (const Word& word : quantities)
      if (word.words == name) return word.quantity;
  return std::nullopt;
}

bool names_temperature(std::string_view header) {
  const auto words = words_of(header);
  return std::ranges::count_if(words, [](const std::string& word) { return among(word, temperature_words); }) == 1 &&
         std::ranges::all_of(words, [](const std::string& word) { return among(word, temperature_words) || among(word, beside_temperature); });
}

bool names_note(std::string_view header) {
  const auto words = words_of(without_unit(header));
  return words.size() == 1 && among(words.front(), note_words);
}

bool names_team(std::string_view header) {
  const auto words = words_of(without_unit(header));
  return words.size() == 1 && among(words.front(), team_words);
}

bool names_date(std::string_view header) {
  const auto words = words_of(header);
  const std::string key = plain_key(header);
  return any_of(words, date_words) || key.find("date") != std::string::npos || key.find("time") != std::string::npos || key.find("fecha") != std::string::npos;
}

std::optional<CountWords> count_named(std::string_view header) {
  const auto words = words_of(header);
  // "Dead of night temp", "chlorine lost": a word that names a measurement makes it one.
  if (quantity_named(header) || any_of(words, temperature_words)) return std::nullopt;
  CountWords found;
  found.running_total = any_of(words, total_words);
  if (any_of(words, dead_words)) {
    found.dead = true;
    const bool eggs = any_of(words, egg_words), alevins = any_of(words, alevin_words), fry = any_of(words, fry_words);
    if (eggs + alevins + fry == 1) found.what = eggs ? Count::What::dead_eggs : alevins ? Count::What::dead_alevins : Count::What::dead_fry;
    return found;
  }
  if (any_of(words, hatched_words)) found.what = Count::What::hatched;
  else if (any_of(words, alive_words)) found.what = Count::What::alive;
  else return std::nullopt;
  return found;
}

}  // namespace redd::intake::detail
