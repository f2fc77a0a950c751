// Asks the system by the oldest call there is for its addresses: one that a fenced-in service may still use.
#include <arpa/inet.h>
#include <net/if.h>
#include <netinet/in.h>
#include <sys/ioctl.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <cstring>

#include "classroom/limits.h"
#include "secrets/certificate.h"

namespace redd::secrets {
namespace {

std::string host_name() {
  char name[256] = {};
  if (gethostname(name, sizeof name - 1) != 0) return "";
  std::string text(name);
  for (char& c : text)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  const bool plain = text.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-.") == std::string::npos;
  return plain && !text.empty() && text.front() != '.' && text.front() != '-' && text.size() <= 200 ? text : "";
}

void add_ipv4_addresses(MachineNames& names) {
  const int handle = socket(AF_INET, SOCK_DGRAM | SOCK_CLOEXEC, 0);
  if (handle < 0) return;
  ifreq buffer[64];
  ifconf all{};
  all.ifc_len = sizeof buffer;
  all.ifc_req = buffer;
  if (ioctl(handle, SIOCGIFCONF, &all) == 0) {
    for (std::size_t i = 0; i < static_cast<std::size_t>(all.ifc_len) / sizeof(ifreq); ++i) {
      if (buffer[i].ifr_addr.sa_family != AF_INET) continue;
      sockaddr_in address{};
      std::memcpy(&address, &buffer[i].ifr_addr, sizeof address);
      char text[INET_ADDRSTRLEN] = {};
      const std::uint32_t number = ntohl(address.sin_addr.s_addr);
      if (number >> 24 == 127 || !inet_ntop(AF_INET, &address.sin_addr, text, sizeof text)) continue;
      auto& addresses = classroom::is_local_address(number) ? names.addresses : names.open_addresses;
      if (std::ranges::find(addresses, text) == addresses.end()) addresses.emplace_back(text);
    }
  }
  close(handle);
}

}  // namespace

MachineNames machine_names() {
  MachineNames names;
  if (const std::string name = host_name(); !name.empty() && name != "localhost") {
    const std::string first = name.substr(0, name.find('.'));
    for (const std::string& each : {name, first, first + ".local"})
      if (std::ranges::find(names.hosts, each) == names.hosts.end()) names.hosts.push_back(each);
  }
  names.hosts.emplace_back("localhost");
  add_ipv4_addresses(names);
  return names;
}

}  // namespace redd::secrets
